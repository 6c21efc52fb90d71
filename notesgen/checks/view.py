"""How checks look at a lesson: events in place, a note's own technique, the facts in force."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from notesgen.lesson.model import Event, How, Key, Lesson, Note

FRETS_FROM_THE_NUT = 24
"""The longest neck in common use. Common practice, no source."""


class InPlace(Struct, frozen=True):
    """An event with those right before and right after it in playing order, None at the lesson's ends."""

    index: int
    before: Event | None
    event: Event
    after: Event | None

    @property
    def opens_phrase(self) -> bool:
        """Whether no event of the same phrase stands right before it."""
        return self.before is None or self.before.phrase != self.event.phrase

    @property
    def inside_phrase(self) -> bool:
        """Whether both neighbours belong to the same phrase."""
        return not self.opens_phrase and self.after is not None and self.after.phrase == self.event.phrase


def in_place(lesson: Lesson) -> Iterator[InPlace]:
    """All events in playing order, each with its neighbours."""
    events = lesson.events
    for index, event in enumerate(events):
        before = events[index - 1] if index else None
        after = events[index + 1] if index + 1 < len(events) else None
        yield InPlace(index, before, event, after)


def how(event: Event, note: Note) -> How:
    """How this note of the event begins."""
    return note.how or event.how


def bend(event: Event, note: Note) -> float | None:
    """By how many semitones this note is bent, None if that is not known."""
    return event.bend if note.bend is None else note.bend


def other_fret(event: Event, note: Note) -> int | None:
    """The other fret of a trill; None for all other notes."""
    if how(event, note) != "trill":
        return None
    return event.to if note.to is None else note.to


def number(note: Note) -> int | None:
    """The fret as a number, None for a dead note."""
    return None if note.fret == "x" else note.fret


def on_string(event: Event | None, string: int) -> Note | None:
    """The event's note on that string, if it has one."""
    notes = event.notes if event else ()
    return next((note for note in notes if note.string == string), None)


def single(event: Event | None) -> Note | None:
    """The note of an event that has just one, with a fret; else None."""
    if event is None or len(event.notes) != 1 or event.notes[0].fret == "x":
        return None
    return event.notes[0]


def pressed(event: Event | None) -> tuple[int, ...]:
    """The frets that the hand holds down: open strings and dead notes left out."""
    frets = (number(note) for note in event.notes) if event else ()
    return tuple(fret for fret in frets if fret)


def in_force(lesson: Lesson, fact: str, at: float) -> Key | int | float | str | tuple[str, ...] | None:
    """What the last change of a fact, at a time or before it, made of it; None if nothing changed it."""
    changes = [change for change in lesson.facts.changes if change.fact == fact and change.start <= at]
    return max(changes, key=lambda change: change.start).value if changes else None


def tuning(lesson: Lesson, at: float) -> tuple[str, ...]:
    """The tuning at a time, string 1 first."""
    changed = in_force(lesson, "tuning", at)
    return changed if isinstance(changed, tuple) else lesson.facts.tuning


def highest_fret(lesson: Lesson, at: float) -> int:
    """The highest fret at a time, counted from the capo as the teacher counts."""
    return FRETS_FROM_THE_NUT - capo(lesson, at)


def capo(lesson: Lesson, at: float) -> int:
    """The capo's fret at a time, 0 for none; a change to where no neck has a fret is none."""
    changed = in_force(lesson, "capo", at)
    return changed if isinstance(changed, int) and 0 <= changed <= FRETS_FROM_THE_NUT else lesson.facts.capo
