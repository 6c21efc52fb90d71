"""Scale boxes read out string by string."""

from __future__ import annotations

import pytest

from notesgen.settle.boxes import find_boxes
from notesgen.settle.step import Step, Voice
from notesgen.settle.told import Naming

Rows = list[tuple[int, tuple[int, ...]]]


def told(rows: Rows, apart: int = 2) -> tuple[tuple[Step, ...], tuple[Naming, ...]]:
    """Each row as a teacher reads it: the string, then its frets, with so many items to the next string."""
    steps: list[Step] = []
    namings: list[Naming] = []
    at = 0
    for sentence, (string, frets) in enumerate(rows):
        namings.append(Naming(at, at + 1, ((string,),), sentence))
        at += 1
        for fret in frets:
            steps.append(Step((Voice(fret),), at, at + 1, sentence, 1))
            at += 1
        at += apart
    return tuple(steps), tuple(namings)


BOX: Rows = [(6, (5, 8)), (5, (5, 7)), (4, (5, 7)), (3, (5, 7)), (2, (5, 8)), (1, (5, 8))]
CASES: list[tuple[str, Rows, list[Rows]]] = [
    ("from low to high", BOX, [BOX]),
    ("from high to low", BOX[::-1], [BOX[::-1]]),
    ("five strings are enough", BOX[:5], [BOX[:5]]),
    ("four may be a run that is played", BOX[:4], []),
    ("a string left out ends it", [*BOX[:2], *BOX[3:]], []),
    ("turning round ends it", [*BOX[:5], BOX[3]], [BOX[:5]]),
    ("one fret is no row", [*BOX[:4], (2, (5,))], []),
    ("five frets are no row", [*BOX[:4], (2, (5, 6, 7, 8, 9))], []),
    ("frets must rise", [*BOX[:4], (2, (7, 5))], []),
    ("frets must lie under one hand", [*BOX[:4], (2, (5, 11))], []),
    (
        "three frets a string",
        [(s, (5, 7, 9)) for s in (6, 5, 4, 3, 2)],
        [[(s, (5, 7, 9)) for s in (6, 5, 4, 3, 2)]],
    ),
    ("two boxes", [*BOX[:5], *BOX], [BOX[:5], BOX]),
    ("none", [], []),
]


@pytest.mark.parametrize(("why", "rows", "expected"), CASES)
def test_boxes(why: str, rows: Rows, expected: list[Rows]) -> None:
    steps, namings = told(rows)
    found = [
        [(row.string, tuple(steps[place].frets[0] for place in row.places)) for row in box.rows]
        for box in find_boxes(steps, namings)
    ]
    assert found == expected, why


def test_strings_told_far_apart_are_no_box() -> None:
    assert find_boxes(*told(BOX, apart=20)) == []


def test_four_strings_are_enough_where_a_box_is_announced() -> None:
    steps, namings = told(BOX[:4])
    assert len(find_boxes(steps, namings, announced=(0,))) == 1
    assert len(find_boxes(steps, namings, strings=4)) == 1, "all strings of a bass"


def test_a_box_as_the_lesson_holds_it() -> None:
    steps, namings = told(BOX[:4])
    (box,) = find_boxes(steps, namings, announced=(0,))
    assert box.places == frozenset(range(8))
    position = box.position(steps, 1.5, "Box 1", "the words")
    assert position.frets == {"6": (5, 8), "5": (5, 7), "4": (5, 7), "3": (5, 7)}
    assert (position.start, position.label, position.quote) == (1.5, "Box 1", "the words")


def test_techniques_are_music_not_a_box() -> None:
    steps, namings = told(BOX[:5])
    hammered = tuple(
        Step(s.voices, s.start, s.end, s.sentence, 1, how="hammer-on" if at == 3 else "pick")
        for at, s in enumerate(steps)
    )
    assert find_boxes(hammered, namings) == []


PAIRS = [frets for _, frets in BOX]
BARE: list[tuple[str, list[tuple[int, ...]], tuple[int, ...], int]] = [
    ("a row for every string, the outer ones alike", PAIRS, (), 1),
    ("the lowest string is named for all", PAIRS, (6,), 1),
    ("another string is named: a line on it", PAIRS, (3,), 0),
    ("a string short", PAIRS[:5], (), 0),
    ("a row more: a line that goes on", [*PAIRS, (5, 8)], (), 0),
    ("the outer rows differ", [*PAIRS[:5], (5, 7)], (), 0),
    ("farther than a hand reaches", [(5, 8), (5, 7), (5, 12), (5, 7), (5, 8), (5, 8)], (), 0),
    ("single frets are a line", [(8,), (7,), (5,), (4,), (2,), (8,)], (), 0),
]


@pytest.mark.parametrize(("why", "rows", "named", "expected"), BARE)
def test_a_box_that_nobody_announced(
    why: str, rows: list[tuple[int, ...]], named: tuple[int, ...], expected: int
) -> None:
    frets = [fret for row in rows for fret in row]
    steps = tuple(Step((Voice(fret, named),), at, at + 1, 0, 1) for at, fret in enumerate(frets))
    assert len(find_boxes(steps, (), strings=6)) == expected, why
