"""Whether a bare number stands where a fret may stand.

"then 7 on the G" and "7, 9, 10" are frets; in "7 people" and "since 8 this morning" the words around the
number say otherwise. Where a wording begins or ends with its own words, those are company enough.
"""

from __future__ import annotations

from itertools import takewhile

from notesgen.grammar.model import WordLists
from notesgen.speech.chains import closing_strings
from notesgen.speech.chart import Chart, Edge, Match
from notesgen.speech.habits import begins_fret, counts_frets, names_ahead
from notesgen.speech.items import Break

STRING_SLOTS = frozenset({"string", "other_string"})
SLURS = frozenset({"how", "hammer-on", "pull-off", "slide"})
FRET_SLOTS = frozenset({"fret", "from", "to", "via", "other_fret"})
NO_FRETS = frozenset({"finger", "string"})  # slots of asides that a string may follow: "finger 2 on the B"
ODD = 1.3  # doubt from which a number needs other guitar talk around it to count as a fret
PARTED = 1.2  # cost of a fret without a string, right before "on the G": a string closes what it follows
SHARED = 0.3  # ... of one with a string before it: "open D, second fret on the G"
ROW = 3  # numbers of an aside from which it may be a row of frets instead
STRING_WORDS = 5  # the longest name of a string with "on" in front
STRUNG = 2.8  # cost of taking such a number for no fret
CUT_OFF = 2.0  # cost of "no, hammer" where a slur is told in full
CUT_SHORT = 0.4  # ... of "5 hammer" in "5 hammer 7": what a slur leads to is mostly told with it
LEADS_WITHIN = 3  # items behind a technique within which it leads on: "... it off to 5"
TAKEN = 0.6  # cost of "7 on the B" in "7 on the B, 8" where the teacher names strings ahead
BY_TURNS = 1.5  # cost of "B string, 7" in "5, B string, 7, G string", where a string closes each fret
ARTICLE_AND_WORD = 2  # items
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
        self.leading = frozenset((*words.source, *words.reaching))
        self.slurs = frozenset((*words.hammering, *words.pulling, *words.sliding))
        self.nouns = frozenset((*words.string, *words.finger_nouns))
        self.names_ahead = names_ahead(chart)
        self.closing_strings = closing_strings(chart)
        self.counts_frets = counts_frets(chart.items, words, lambda at: bool(chart.edges(at, "ordinal")))

    def cost(self, match: Match, kind: str) -> float:
        """ODD_NEIGHBOUR for each end at which a bare number has odd company; PARTED from its string.

        An aside pays where its number is told as a fret: "that scale, 9 on the B", "the G nine to twelve".
        So does a position: "up at the fifth fret on the G" is a note.
        """
        misread = COUNTED * (self.counts_frets and self._counts_no_fret(match, kind))
        misread += CUT_OFF * (kind == "correction" and self._goes_on_to_fret(match))
        misread += CUT_SHORT * (kind in SLURS and self._is_cut_short(match))
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
        return misread + taken + ODD_NEIGHBOUR * odd + self._parted(match, last)

    def _goes_on_to_fret(self, match: Match) -> bool:
        """Whether the words name a technique that leads on to a fret: "well, hammer | on from 5 to 7"."""
        items = self.chart.items
        if not any(items[at].text in self.slurs for at in range(match.start, match.end)):
            return False
        behind = takewhile(lambda item: item.before < Break.SOFT, items[match.end : match.end + LEADS_WITHIN])
        return any(item.text in self.leading for item in behind)

    def _is_cut_short(self, match: Match) -> bool:
        """Whether the words of a slur end before the fret to which it leads: "5 hammer | 7"."""
        items, end = self.chart.items, match.end
        if not self.chart.ties[end] or items[end].before > Break.NONE:
            return False
        told = max((slot.end for slot in match.slots), default=match.start)
        slurred = any(items[at].text in self.slurs for at in range(told, end))
        return slurred and bool(self.chart.edges(end, "fret_number"))

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
        """The cost of parting a fret from the string right behind it; less where it has one before it.

        None where the teacher names the string ahead of its frets.
        """
        if self.names_ahead or last.end != match.end or not self._string_follows(match.end):
            return 0.0
        if any(slot.name in STRING_SLOTS for slot in match.slots):
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

    def _only_number(self, start: int, end: int) -> bool:
        symbols = self.chart.starting[start]
        kinds = ("number", "plural", "run", "ordinal")
        return any(edge.end == end for kind in kinds for edge in symbols.get(kind, ()))

    def _odd_before(self, start: int) -> bool:
        if start == 0 or self.chart.items[start].before >= Break.SOFT:
            return False
        return not self._fits(start - 1, self.before)

    def _odd_after(self, end: int) -> bool:
        if end >= len(self.chart.items) or self.chart.items[end].before >= Break.SOFT:
            return False
        return not self._fits(end, self.after)

    def _fits(self, at: int, words: frozenset[str]) -> bool:
        symbols = self.chart.starting[at]
        if any(edge.cost == 0 for edge in symbols.get("letter", ())):
            return True
        return self.chart.items[at].text in words or "number" in symbols or "run" in symbols
