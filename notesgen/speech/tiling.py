"""Which of the overlapping idioms are meant: the cheapest tiling of the talk.

A word left over costs a little, a number left over costs much, and each idiom costs something, so that
one long idiom beats two short ones and a longer reading beats a shorter one.
"""

from __future__ import annotations

from msgspec import Struct

from notesgen.grammar.model import Idiom, Template
from notesgen.speech.chart import Chart, Match
from notesgen.speech.pronoun import IN_A_ROW

IDIOM = 0.4  # cost of using one more idiom
WORD = 1.0  # cost of an item that no idiom takes
LIGHT = 0.3  # ... when it is a word like "then", "so", "the"
NUMBER = 3.4  # cost of a number that no idiom takes


class Tile(Struct, frozen=True):
    """One idiom in one place. `cost` counts odd surroundings, misheard words, commas and the idiom's own."""

    idiom: Idiom
    template: Template
    match: Match
    cost: float


def best_tiling(chart: Chart, tiles: list[Tile], light: frozenset[str]) -> list[Tile]:
    """The tiles of the cheapest way through all items, in order. Linear in items and tiles.

    `light` holds words that mean little by themselves ("then", "so"), and cost little when left over.
    """
    by_start: dict[int, list[Tile]] = {}
    for tile in tiles:
        by_start.setdefault(tile.match.start, []).append(tile)
    size = len(chart.items)
    best = [0.0] * (size + 1)
    taken: list[Tile | None] = [None] * size
    for at in range(size - 1, -1, -1):
        best[at] = best[at + 1] + _left_over(chart, at, light)
        for tile in sorted(by_start.get(at, ()), key=_preference):
            cost = best[tile.match.end] + IDIOM + tile.cost
            if cost < best[at] - 1e-9:
                best[at], taken[at] = cost, tile
    return list(_follow(taken))


def _preference(tile: Tile) -> str:
    """Readings of equal cost go by the idiom's name: never by file, which would change as files are split."""
    return tile.idiom.name


def _left_over(chart: Chart, at: int, light: frozenset[str]) -> float:
    if _is_number(chart, at):
        return NUMBER
    return LIGHT if chart.items[at].text in light else WORD


def _is_number(chart: Chart, at: int) -> bool:
    """Whether a number begins here as written. "one" is a pronoun as often: it counts in a row of places."""
    if chart.items[at].text == "one":
        return any(edge.cost <= IN_A_ROW for edge in chart.edges(at, "fret_number"))
    edges = (*chart.edges(at, "number"), *chart.edges(at, "ordinal"))
    return any(edge.cost == 0 for edge in edges)


def _follow(taken: list[Tile | None]) -> list[Tile]:
    path, at = [], 0
    while at < len(taken):
        tile = taken[at]
        if tile is None:
            at += 1
        else:
            path.append(tile)
            at = tile.match.end
    return path
