"""The cheapest tiling: hand-made tiles, and every tiling tried one by one."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from notesgen.grammar.model import Idiom, Template
from notesgen.grammar.template import Word
from notesgen.speech.chart import Chart, Edge, Match
from notesgen.speech.numbers import number_edges
from notesgen.speech.tiling import IDIOM, LIGHT, NUMBER, WORD, Tile, best_tiling
from tests.speech.talk import cut

LIGHT_WORDS = frozenset({"then", "the"})


def chart(text: str) -> Chart:
    made = Chart(cut(text))
    for edge in number_edges(made.items):
        made.add(edge)
    return made


def tile(start: int, end: int, cost: float = 0.0) -> Tile:
    idiom = Idiom(f"{start} to {end}", "note", "", (), {}, (), (), "test.toml")
    return Tile(idiom, Template("x", Word("x"), "test.toml", 1), Match(start, end, ()), cost)


def spans(text: str, *tiles: Tile) -> list[tuple[int, int]]:
    return [(one.match.start, one.match.end) for one in best_tiling(chart(text), list(tiles), LIGHT_WORDS)]


CASES = [
    ("the longest wins", "play a b c", [tile(0, 2), tile(0, 4), tile(0, 3)], [(0, 4)]),
    ("one long idiom beats two short ones", "play a b c", [tile(0, 2), tile(2, 4), tile(0, 4)], [(0, 4)]),
    ("two idioms that meet", "play a b c", [tile(0, 2), tile(2, 4)], [(0, 2), (2, 4)]),
    ("of two that overlap, the one that leaves less", "a b c d e", [tile(0, 2), tile(1, 5)], [(1, 5)]),
    (
        "a long one in the middle loses to all around it",
        "a b c d",
        [tile(0, 2), tile(1, 3), tile(2, 4)],
        [(0, 2), (2, 4)],
    ),
    ("doubt may outweigh length", "play a b c", [tile(0, 4, cost=5.0), tile(0, 3)], [(0, 3)]),
    ("a dear idiom is not worth a word", "play a", [tile(0, 1, cost=WORD)], []),
    ("a light word is worth no idiom", "then a", [tile(0, 1)], []),
    ("a number is worth a doubtful one", "7 a", [tile(0, 1, cost=NUMBER - IDIOM - 0.1)], [(0, 1)]),
    ("one is a pronoun as often", "one a", [tile(0, 1, cost=WORD)], []),
    ("nothing fits", "a b", [], []),
    ("of two alike, the first", "a b", [tile(0, 2), tile(0, 2)], [(0, 2)]),
]


@pytest.mark.parametrize(("why", "text", "tiles", "expected"), CASES)
def test_tiling(why: str, text: str, tiles: list[Tile], expected: list[tuple[int, int]]) -> None:
    assert spans(text, *tiles) == expected, why


def test_ties_go_by_the_name_of_the_idiom() -> None:
    tiles = [replace(tile(0, 2), idiom=replace(tile(0, 2).idiom, name=name)) for name in ("b", "a", "c")]
    assert [one.idiom.name for one in best_tiling(chart("a b"), tiles, LIGHT_WORDS)] == ["a"]


def test_a_misheard_number_is_no_number_when_left_over() -> None:
    heard = chart("ate b")
    heard.add(Edge(0, 1, "number", 8, cost=0.3))
    assert best_tiling(heard, [tile(0, 1, cost=WORD)], LIGHT_WORDS) == []


WORDS = st.sampled_from(["7", "then", "a", "one", "seven", "third", "the"])
SPANS = st.tuples(st.integers(0, 5), st.integers(1, 4), st.integers(0, 8))


def left_over(word: str) -> float:
    if word in ("7", "seven", "third"):
        return NUMBER
    return LIGHT if word in LIGHT_WORDS else WORD


def tilings(tiles: list[Tile], at: int, size: int) -> Iterator[list[Tile]]:
    """Every way to lay tiles side by side from item `at` on."""
    if at == size:
        yield []
        return
    yield from tilings(tiles, at + 1, size)
    for one in tiles:
        if one.match.start == at:
            for rest in tilings(tiles, one.match.end, size):
                yield [one, *rest]


@given(st.lists(WORDS, min_size=1, max_size=6), st.lists(SPANS, max_size=6))
def test_no_other_tiling_is_cheaper(words: list[str], laid: list[tuple[int, int, int]]) -> None:
    text = ", ".join(words)  # commas keep number words apart
    tiles = [
        tile(start, start + length, quarters / 4)
        for start, length, quarters in laid
        if start + length <= len(words)
    ]

    def cost(chosen: list[Tile]) -> float:
        taken = {at for one in chosen for at in range(one.match.start, one.match.end)}
        bare = sum(left_over(word) for at, word in enumerate(words) if at not in taken)
        return bare + sum(IDIOM + one.cost for one in chosen)

    best = best_tiling(chart(text), tiles, LIGHT_WORDS)
    assert best in list(tilings(tiles, 0, len(words)))
    assert cost(best) <= min(map(cost, tilings(tiles, 0, len(words)))) + 1e-6
