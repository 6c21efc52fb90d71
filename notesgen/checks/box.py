"""The position in which the hand is, and the event that stands alone out of its reach."""

from __future__ import annotations

from msgspec import Struct

from notesgen.checks.view import InPlace, highest_fret, how, pressed, single
from notesgen.lesson.model import Event, Lesson

_STRINGS = 4
"""A box read out on fewer strings than this is a lick, not a position. Common practice, no source."""
_REACH = 5
"""Frets beyond the box that a hand may stretch to. Common practice, no source."""
_STRETCH = 1
"""Frets beyond the box that still count as playing inside it. Common practice, no source."""


class Box(Struct, frozen=True):
    """The span of a position: lowest and highest fret on any string."""

    label: str
    lowest: int
    highest: int

    def distance(self, fret: int) -> int:
        """How many frets a fret lies beyond the box, 0 inside it."""
        return max(self.lowest - fret, fret - self.highest, 0)

    def within_reach(self, fret: int) -> bool:
        """Whether the hand gets there without moving."""
        return self.distance(fret) <= _REACH


def box_at(lesson: Lesson, at: float) -> Box | None:
    """The box of the last position declared at a time or before it."""
    declared = [
        position
        for position in lesson.facts.positions
        if position.start <= at and sum(bool(frets) for frets in position.frets.values()) >= _STRINGS
    ]
    if not declared:
        return None
    last = max(declared, key=lambda position: position.start)
    frets = [fret for string in last.frets.values() for fret in string]
    return Box(last.label, min(frets), max(frets))


def left_box(lesson: Lesson, place: InPlace) -> Box | None:
    """The box that a single note leaves while its neighbours stay inside; None if it does not."""
    event, note = place.event, single(place.event)
    box = box_at(lesson, event.start)
    if box is None or note is None or note.fret == "x":
        return None
    unremarkable = (
        note.fret == 0
        or box.within_reach(note.fret)
        or note.fret > highest_fret(lesson, event.start)
        or how(event, note) == "slide"
    )
    alone = _plays_inside(box, place.before) and _plays_inside(box, place.after)
    return box if alone and not unremarkable else None


def _plays_inside(box: Box, event: Event | None) -> bool:
    frets = pressed(event)
    return bool(frets) and all(box.distance(fret) <= _STRETCH for fret in frets)
