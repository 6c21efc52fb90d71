"""Whether a wording ends, or begins, in the middle of what is said: "two down | a string", "5 hammer | 7"."""

from __future__ import annotations

from itertools import takewhile

from notesgen.grammar.model import WordLists
from notesgen.speech.chart import Chart, Match
from notesgen.speech.items import Break

STRING_SLOTS = frozenset({"string", "other_string"})
SLURS = frozenset({"how", "hammer-on", "pull-off", "slide"})
NUMBERED = ("aside", "section")  # kinds whose words may begin with a noun that an ordinal counts
IN_TWO = 2.8  # cost of cutting a noun from its number, or a string from the way to it
OFF = 2.0  # ... of "no, hammer" where a slur is told in full
SHORT = 0.4  # ... of "5 hammer" in "5 hammer 7": what a slur leads to is mostly told with it
LEADS_WITHIN = 3  # items behind a technique within which it leads on: "... it off to 5"
ARTICLE_AND_WORD = 2  # items


class Cuts:
    """The word lists of a grammar, applied to one chart."""

    def __init__(self, chart: Chart, words: WordLists) -> None:
        self.chart = chart
        self.fret, self.string = frozenset(words.fret), frozenset(words.string)
        self.strings = frozenset(words.string[1:])  # in the plural
        self.finger_nouns = frozenset(words.finger_nouns)
        self.determining = frozenset(words.determining)
        self.ways = frozenset((*words.rising, *words.falling))
        self.reaching = frozenset(words.reaching)
        self.leading = frozenset((*words.source, *words.reaching))
        self.slurs = frozenset((*words.hammering, *words.pulling, *words.sliding))

    def cost(self, match: Match, kind: str) -> float:
        """What it costs to cut there; 0 where nothing is cut."""
        cost = IN_TWO * self._cuts_what_follows(match)
        cost += IN_TWO * (kind in NUMBERED and self._is_cut_from_its_ordinal(match, kind))
        cost += OFF * (kind == "correction" and self._goes_on_to_fret(match))
        return cost + SHORT * (kind in SLURS and self._is_cut_short(match))

    def _is_cut_from_its_ordinal(self, match: Match, kind: str) -> bool:
        """Whether the words begin with a noun told before: "the first | finger, 4", "third | phrase 13"."""
        noun = kind == "section" or self.chart.items[match.start].text in self.finger_nouns
        return noun and is_numbered(self.chart, match.start)

    def _cuts_what_follows(self, match: Match) -> bool:
        """Whether words are cut in two: "two down | a string", "next string | down", "seventh | fret"."""
        items, end = self.chart.items, match.end
        if self._cuts_its_string_short(match) or self._cuts_noun(match):
            return True
        said = items[end : end + ARTICLE_AND_WORD]
        if len(said) < ARTICLE_AND_WORD or items[end - 1].text not in self.ways:
            return False
        article, string = said
        spoken = article.text in self.determining and not article.is_name and string.text in self.string
        may_be_name = bool(self.chart.edges(end, "letter"))
        return spoken and may_be_name and all(item.before == Break.NONE for item in said)

    def _cuts_noun(self, match: Match) -> bool:
        """Whether its noun follows the number at the end: "the D seventh | fret", "on two | strings"."""
        items, end = self.chart.items, match.end
        if end == len(items) or items[end].before > Break.NONE:
            return False
        counted = self.chart.edges(end - 1, "number") if items[end].text in self.strings else ()
        fret = self.chart.edges(end - 1, "ordinal") if items[end].text in self.fret else ()
        return any(edge.end == end for edge in (*counted, *fret))

    def _cuts_its_string_short(self, match: Match) -> bool:
        """Whether the way that follows belongs to its string: "on the next string | down, two"."""
        items, end, last = self.chart.items, match.end, match.slots[-1] if match.slots else None
        if last is None or last.name not in STRING_SLOTS or last.end != end or end == len(items):
            return False
        if items[end].text not in self.ways or items[end].before > Break.NONE:
            return False
        leads = any(item.text in self.reaching for item in items[end + 1 : end + 2])
        return not leads and any(edge.end == end + 1 for edge in self.chart.edges(last.start, last.symbol))

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


def is_numbered(chart: Chart, at: int) -> bool:
    """Whether an ordinal stands right before the item: "the third phrase"."""
    beside = at > 0 and chart.items[at].before == Break.NONE
    return beside and bool(chart.edges(at - 1, "ordinal"))
