"""Whether a bare number stands where a fret may stand.

"then 7 on the G" and "7, 9, 10" are frets; in "7 people" and "since 8 this morning" the words around the
number say otherwise. Where a wording begins or ends with its own words, those are company enough.
"""

from __future__ import annotations

from notesgen.grammar.model import WordLists
from notesgen.speech.chains import closing_strings
from notesgen.speech.chart import Chart, Edge, Match
from notesgen.speech.cuts import ARTICLE_AND_WORD, STRING_SLOTS, Cuts, is_numbered
from notesgen.speech.habits import begins_fret, counts_frets, names_ahead
from notesgen.speech.items import Break
from notesgen.speech.matching import FINGERED

FRET_SLOTS = frozenset({"fret", "from", "to", "via", "other_fret"})
NO_FRETS = frozenset({"finger", "string"})  # slots of asides that a string may follow: "finger 2 on the B"
ODD = 1.3  # doubt from which a number needs other guitar talk around it to count as a fret
PARTED = 1.2  # cost of a fret without a string, right before "on the G": a string closes what it follows
SHARED = 0.3  # ... of one with a string before it: "open D, second fret on the G"
ROW = 3  # numbers of an aside from which it may be a row of frets instead
STRING_WORDS = 5  # the longest name of a string with "on" in front
STRUNG = 2.8  # cost of taking such a number for no fret
TAKEN = 0.6  # cost of "7 on the B" in "7 on the B, 8" where the teacher names strings ahead
BY_TURNS = 1.5  # cost of "B string, 7" in "5, B string, 7, G string", where a string closes each fret
NOT_A_NAME = 1.0  # cost of "G, the 14th fret of the G" in "12th fret G, the 14th fret of the G"
COUNTED = 1.5  # cost of taking "the second" for a string or a finger where ordinals count frets
ODD_NEIGHBOUR = 1.6  # cost for each side on which a word stands that is not met beside frets


class Surroundings:
    """The word lists of a grammar, applied to one chart."""

    def __init__(self, chart: Chart, words: WordLists) -> None:
        self.chart = chart
        self.before = frozenset(words.before_fret) | frozenset(words.guitar_words)
        self.locating = frozenset(words.locating)
        self.reaching = frozenset(words.reaching)
        self.fret = frozenset(words.fret)
        self.after = frozenset(words.after_fret) | frozenset(words.guitar_words)
        self.article = frozenset(words.article)
        self.linking = frozenset((*words.joining, *words.turning_to))
        self.nouns = frozenset((*words.string, *words.finger_nouns))
        self.cuts = Cuts(chart, words)
        self.names_ahead = names_ahead(chart, words)
        self.closing_strings = closing_strings(chart)
        self.counts_frets = counts_frets(chart.items, words, lambda at: bool(chart.edges(at, "ordinal")))

    def cost(self, match: Match, kind: str) -> float:
        """ODD_NEIGHBOUR for each end at which a bare number has odd company; PARTED from its string.

        An aside pays where its number is told as a fret: "that scale, 9 on the B", "the G nine to twelve".
        So does a position: "up at the fifth fret on the G" is a note.
        """
        misread = self.cuts.cost(match, kind)
        misread += COUNTED * (self.counts_frets and self._counts_no_fret(match, kind))
        if kind == "aside":
            return misread + STRUNG * (self._tells_a_fret(match) or self._goes_on_from_string(match))
        if kind == "position" and self.chart.items[match.end - 1].text in self.fret:
            return PARTED * self._string_follows(match.end)
        frets = [slot for slot in match.slots if slot.name in FRET_SLOTS]
        if not frets:
            return misread
        first, last = frets[0], frets[-1]
        bare_first = first.start == match.start and self._only_number(first.start, first.end)
        bare_last = last.end == match.end and self._only_number(last.start, last.end)
        odd = (bare_first and self._odd_before(match.start)) + (bare_last and self._odd_after(match.end))
        taken = TAKEN * (self.names_ahead and self._takes_string(match, first))
        taken += BY_TURNS * (first.start > match.start and match.start in self.closing_strings)
        taken += NOT_A_NAME * self._is_string_told_by_letter(match)
        taken += STRUNG * self._goes_on_behind_fingers(match, frets)
        return misread + taken + ODD_NEIGHBOUR * odd + self._parted(match, last)

    def _is_string_told_by_letter(self, match: Match) -> bool:
        """Whether a letter in front of a fret and its string is the string of another fret.

        Of the one before it, "12th fret G, the 14th fret of the G", or of the one behind it where the string
        has a fret of its own: "the G, second fret, on the D, fourth fret".
        """
        letter, last = match.slots[0], match.slots[-1]
        if letter.name != "letter" or last.name not in STRING_SLOTS:
            return False
        items = self.chart.items
        behind = items[letter.end]
        parts = behind.before >= Break.SOFT or behind.text in self.article
        if parts and 0 < letter.start == match.start and items[letter.start].before == Break.NONE:
            return items[letter.start - 1].text in self.fret
        return items[last.start].before >= Break.SOFT and self._has_its_own_fret(last)

    def _goes_on_behind_fingers(self, match: Match, frets: list[Edge]) -> bool:
        """Whether fingers part the frets of a list behind its string: the string behind them may close it."""
        ahead = match.slots[0].name in STRING_SLOTS
        return ahead and any(self.chart.edges(fret.end, FINGERED) for fret in frets[:-1])

    def _has_its_own_fret(self, string: Edge) -> bool:
        """Whether a fret follows the string that has none behind it: "on the D, fourth fret"."""
        ends = [edge.end for edge in self.chart.edges(string.end, "sure_fret")]
        return bool(ends) and not self._string_follows(max(ends))

    def _counts_no_fret(self, match: Match, kind: str) -> bool:
        """Whether a bare ordinal is taken for a string or a finger: "the second, open"."""
        items = self.chart.items
        if kind == "aside":
            ends = [match.end] if self._is_article_and_word(match) else []
        else:
            ends = [slot.end for slot in match.slots if slot.name in STRING_SLOTS]
        if not any(edge.end == end for end in ends for edge in self.chart.edges(end - 1, "ordinal")):
            return False
        return not any(items[at].text in self.nouns for at in range(match.start, match.end))

    def _is_article_and_word(self, match: Match) -> bool:
        """Whether the match is an article and one word more, and a clause by itself: "Then the second."."""
        items, start, behind = self.chart.items, match.start, self.chart.items[match.end : match.end + 1]
        if match.end - start != ARTICLE_AND_WORD or items[start].text not in self.article:
            return False
        if any(item.before < Break.SOFT and item.text not in self.linking for item in behind):
            return False
        return start == 0 or items[start].before >= Break.SOFT or items[start - 1].text in self.linking

    def _takes_string(self, match: Match, fret: Edge) -> bool:
        """Whether a string is taken for the fret before it, though one stands right behind it as well."""
        strings = [slot for slot in match.slots if slot.name in STRING_SLOTS]
        closes = bool(strings) and fret.start < strings[0].start and strings[-1].end == match.end
        return closes and begins_fret(self.chart, match.end)

    def _parted(self, match: Match, last: Edge) -> float:
        """The cost of parting a fret from the string right behind it; less where it has one before it, and
        where an open string is told before a list that goes on: "open D, 3, 1 on the A".

        None where the teacher names the string ahead of its frets.
        """
        if self.names_ahead or last.end != match.end:
            return 0.0
        strung = any(slot.name in STRING_SLOTS for slot in match.slots)
        if not self._string_follows(match.end):
            opens = strung and match.slots[0].value == 0
            return SHARED * (opens and self._string_follows(self._end_of_list(match.end)))
        if strung:
            return SHARED
        return PARTED

    def _tells_a_fret(self, match: Match) -> bool:
        """Whether an aside ends in a number that has a string behind it, or leads to another fret."""
        last, end = match.slots[-1] if match.slots else None, match.end
        number = any(edge.end == end for edge in self.chart.edges(end - 1, "fret_number"))
        if not number or (last and last.end == end and last.name in NO_FRETS):
            return False
        return self._string_follows(end) or self._leads_to_fret(end)

    def _goes_on_from_string(self, match: Match) -> bool:
        """Whether an aside is nothing but numbers, right behind a string: "it's on the A: five six seven"."""
        if match.end - match.start < ROW or self.chart.items[match.start].before > Break.SOFT:
            return False
        if not all(self.chart.edges(at, "number") for at in range(match.start, match.end)):
            return False
        leads = range(max(0, match.start - STRING_WORDS), match.start)
        return any(edge.end == match.start for at in leads for edge in self.chart.edges(at, "on"))

    def _leads_to_fret(self, end: int) -> bool:
        if end >= len(self.chart.items) or self.chart.items[end].before > Break.NONE:
            return False
        return self.chart.items[end].text in self.reaching and bool(self.chart.edges(end + 1, "fret_number"))

    def _string_follows(self, end: int) -> bool:
        """Whether "on the G" or the like stands at once behind."""
        if end >= len(self.chart.items) or self.chart.items[end].before > Break.NONE:
            return False
        return self.chart.items[end].text in self.locating and bool(self.chart.edges(end, "on"))

    def _end_of_list(self, end: int) -> int:
        """The item behind the numbers that go on from here."""
        while end < len(self.chart.items) and self.chart.ties[end] and self._only_number(end, end + 1):
            end += 1
        return end

    def _only_number(self, start: int, end: int) -> bool:
        symbols = self.chart.starting[start]
        kinds = ("number", "plural", "run", "ordinal")
        return any(edge.end == end for kind in kinds for edge in symbols.get(kind, ()))

    def _odd_before(self, start: int) -> bool:
        if start == 0 or self.chart.items[start].before >= Break.SOFT:
            return False
        return not (self._fits(start - 1, self.before) or is_numbered(self.chart, start - 1))

    def _odd_after(self, end: int) -> bool:
        if end >= len(self.chart.items) or self.chart.items[end].before >= Break.SOFT:
            return False
        return not self._fits(end, self.after)

    def _fits(self, at: int, words: frozenset[str]) -> bool:
        symbols = self.chart.starting[at]
        if any(edge.cost == 0 for edge in symbols.get("letter", ())):
            return True
        return self.chart.items[at].text in words or "number" in symbols or "run" in symbols
