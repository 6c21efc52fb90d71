"""Which of two notes fits the music better: by the key, then by the hand."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import Event, Fret, Note
from notesgen.settle.assign import Ground

CLEARLY = 2  # frets by which one must lie nearer to the notes around it than the other


def fits_better(first: Note, again: Note, around: Sequence[Event], ground: Ground) -> tuple[Fret, str] | None:
    """The fret that fits better and why, as the second half of a sentence; None where both fit alike.

    `around` are the events before and after.
    """
    outside = [ground.is_outside(note.fret, note.string) for note in (first, again)]
    if outside[0] != outside[1]:
        return (again if outside[0] else first).fret, "the other is outside the key"
    away = [_away(note.fret, around) for note in (first, again)]
    if abs(away[0] - away[1]) >= CLEARLY:
        return (first if away[0] < away[1] else again).fret, "it lies nearer to the notes around it"
    return None


def _away(fret: Fret, around: Sequence[Event]) -> int:
    """Frets to the nearest of the notes around; open strings and dead notes are near to everything."""
    if not isinstance(fret, int) or not fret:
        return 0
    frets = [note.fret for event in around for note in event.notes]
    return min((abs(fret - other) for other in frets if isinstance(other, int) and other), default=0)
