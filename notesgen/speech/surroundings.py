"""Whether a bare number stands where a fret may stand.

"then 7 on the G" and "7, 9, 10" are frets; in "7 people" and "since 8 this morning" the words around the
number say otherwise. A wording that is more than a number brings its own surroundings and costs nothing.
"""

from __future__ import annotations

from notesgen.grammar.model import WordLists
from notesgen.speech.chart import Chart, Match
from notesgen.speech.items import Break

ODD_NEIGHBOUR = 1.6  # cost for each side on which a word stands that is not met beside frets


class Surroundings:
    """The word lists of a grammar, applied to one chart."""

    def __init__(self, chart: Chart, words: WordLists) -> None:
        self.chart = chart
        self.before = frozenset(words.before_fret) | frozenset(words.guitar_words)
        self.after = frozenset(words.after_fret) | frozenset(words.guitar_words)

    def cost(self, match: Match) -> float:
        """0 for a wording with words of its own; else ODD_NEIGHBOUR for each odd side."""
        if not self._is_bare(match):
            return 0.0
        return ODD_NEIGHBOUR * (self._odd_before(match.start) + self._odd_after(match.end))

    def _is_bare(self, match: Match) -> bool:
        covered = {at for slot in match.slots for at in range(slot.start, slot.end)}
        own_words = [at for at in range(match.start, match.end) if at not in covered]
        return not own_words and all(self._only_number(slot.start, slot.end) for slot in match.slots)

    def _only_number(self, start: int, end: int) -> bool:
        symbols = self.chart.starting[start]
        kinds = ("number", "plural", "run")
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
        return self.chart.items[at].text in words or "number" in symbols or "run" in symbols
