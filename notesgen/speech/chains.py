"""Frets and strings told by turns without a preposition: which of two neighbours belongs to which.

"Second fret, A string, first fret, D string" begins with a fret and ends with a string: each string closes
the fret before it. "A string, second fret, D string, first fret" is told the other way.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from notesgen.speech.chart import Chart
from notesgen.speech.items import Break

STRING = "string"
FRET = "fret"
PAIRS = 2  # of a fret and a string, from which they count as told by turns


def closing_strings(chart: Chart) -> frozenset[int]:
    """The items at which a string begins that closes the fret before it, in rows told by turns."""
    closing: set[int] = set()
    for row in _rows(chart):
        kinds = [kind for kind, _ in row]
        by_turns = all(one != two for one, two in pairwise(kinds))
        if by_turns and len(row) >= 2 * PAIRS and kinds[0] == FRET and kinds[-1] == STRING:
            closing |= {at for kind, at in row if kind == STRING}
    return frozenset(closing)


def _rows(chart: Chart) -> Iterator[list[tuple[str, int]]]:
    """Rows of frets and strings that stand right behind each other, each as its kind and first item."""
    row: list[tuple[str, int]] = []
    at = 0
    while at < len(chart.items):
        kind, end = _unit(chart, at)
        if row and (not kind or chart.items[at].before >= Break.HARD):
            yield row
            row = []
        if kind:
            row.append((kind, at))
        at = end
    yield row


def _unit(chart: Chart, at: int) -> tuple[str, int]:
    """What begins at the item, a string, a fret or neither (""), and where it ends."""
    for kind in (STRING, FRET):
        ends = [edge.end for edge in chart.edges(at, kind)]
        if ends:
            return kind, max(ends)
    return "", at + 1
