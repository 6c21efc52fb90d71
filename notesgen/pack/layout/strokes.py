"""Each note of an event with all that it takes over from the event."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct

from notesgen.lesson.model import Event, Fret, How, Mark


class Stroke(Struct, frozen=True):
    """One string, one fret, how it begins and what marks it. `bend` in semitones, `to` a trill's fret."""

    string: int
    fret: Fret
    how: How
    bend: float | None
    to: int | None
    marks: tuple[Mark, ...]


def strokes(event: Event) -> tuple[Stroke, ...]:
    """The event's notes, the thinnest string first."""
    return tuple(
        Stroke(
            string=note.string,
            fret=note.fret,
            how=note.how or event.how,
            bend=event.bend if note.bend is None else note.bend,
            to=event.to if note.to is None else note.to,
            marks=event.marks,
        )
        for note in sorted(event.notes, key=lambda note: note.string)
    )


def with_before(events: Iterable[Event]) -> Iterator[tuple[Event, dict[int, Fret]]]:
    """Each event, and the fret last played on each string before it."""
    last: dict[int, Fret] = {}
    for event in events:
        yield event, last
        last = last | {note.string: note.fret for note in event.notes}
