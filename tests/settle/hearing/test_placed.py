"""Fingers put down: held where they are played right after, notes where they are not."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import How
from notesgen.settle.hearing.placed import held
from notesgen.settle.step import Step, Voice


def steps(text: str, how: How = "pick") -> list[Step]:
    """Steps from words like "7"; a "_" before the fret puts the finger down only."""
    return [
        Step((Voice(int(word.lstrip("_")), (3,)),), at, at + 1, 0, 1, how=how, placed=word.startswith("_"))
        for at, word in enumerate(text.split())
    ]


@pytest.mark.parametrize(
    ("why", "text", "places"),
    [
        ("put down and played", "_5 _7 5 7", {0, 1}),
        ("put down and half of it played", "_5 _7 5 9", {0, 1}),
        ("put down and something else played", "_5 _7 9 10", set()),
        ("put down and nothing played", "_5 _7", set()),
        ("played in another order", "_5 _7 7 5", {0, 1}),
        ("played too late", "_5 1 2 3 5", set()),
        ("nothing put down", "5 7 5 7", set()),
        ("twice", "_5 5 7 _9 9", {0, 3}),
        ("nothing", "", set()),
    ],
)
def test_held(why: str, text: str, places: set[int]) -> None:
    assert held(steps(text)) == places, why


def test_legato_is_playing() -> None:
    assert held(steps("_5 _7 5 7", how="hammer-on")) == frozenset()
