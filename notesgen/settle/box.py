"""A scale box: the frets of each string, and the steps in which they were read out."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from notesgen.lesson.model import Position
from notesgen.settle.step import Step

LEAST_STRINGS = 4  # strings that a box needs
HAND = 5  # frets under one hand


class Row(Struct, frozen=True):
    """The frets read out for one string; `places` are those of their steps in the telling."""

    string: int
    places: tuple[int, ...]


class Box(Struct, frozen=True):
    """A box and the steps that it is made of."""

    rows: tuple[Row, ...]

    @property
    def places(self) -> frozenset[int]:
        """The steps that belong to the box."""
        return frozenset(place for row in self.rows for place in row.places)

    def frets(self, steps: tuple[Step, ...]) -> dict[int, tuple[int, ...]]:
        """The frets of each string, as read out."""
        return {row.string: frets_of(steps, row.places) for row in self.rows}

    def position(self, steps: tuple[Step, ...], start: float, label: str, quote: str) -> Position:
        """The box as `lesson.json` holds it."""
        frets = {str(string): frets for string, frets in self.frets(steps).items()}
        return Position(label, start, frets, quote)


def frets_of(steps: Sequence[Step], places: Sequence[int]) -> tuple[int, ...]:
    """The frets read out in the steps, each once, in the order said."""
    frets = (int(fret) for place in places for fret in steps[place].frets if fret != "x")
    return tuple(dict.fromkeys(frets))
