"""What was said of each note, ready to look up."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from notesgen.lesson.model import Event, Facts, Flag, Lesson, Note, Number, Option

ROLES = ("fret", "hammer-on", "pull-off", "slide")  # of numbers that name the fret of a note


class Slip(Struct, frozen=True):
    """`sentence` is ready to paste, `start` in seconds. A slip of one fret has the number that was said, and
    `fret`, the right one."""

    start: float
    sentence: str
    number: Number | None = None
    fret: int | None = None


class Said(Struct, frozen=True):
    """A lesson's events by id, the frets said of each event, and all numbers by the second they begin in."""

    facts: Facts
    events: Mapping[str, Event]
    numbers: Mapping[str, Sequence[Number]]
    by_second: Mapping[int, Sequence[Number]]

    def of(self, events: Iterable[str]) -> list[Number]:
        """The frets said of all these events."""
        return [number for event in events for number in self.numbers.get(event, ())]

    def written(self, flag: Flag) -> list[Note]:
        """The notes of the flag's events as they stand."""
        events = (self.events[event] for event in flag.events if event in self.events)
        return [note for event in events for note in event.notes]


def said(lesson: Lesson) -> Said:
    """The lesson's words, indexed once."""
    numbers: dict[str, list[Number]] = {}
    by_second: dict[int, list[Number]] = {}
    for number in lesson.numbers:
        by_second.setdefault(int(number.start), []).append(number)
        if number.event and number.role in ROLES:
            numbers.setdefault(number.event, []).append(number)
    return Said(lesson.facts, {event.id: event for event in lesson.events}, numbers, by_second)


def notes_of(option: Option) -> list[Note]:
    """The notes that the option writes."""
    return [note for change in option.change for note in change.notes or ()]


def frets(notes: Iterable[Note]) -> frozenset[int]:
    """Their frets; dead notes have none."""
    return frozenset(note.fret for note in notes if note.fret != "x")


def pair(numbers: Sequence[Number], right: frozenset[int]) -> tuple[Number, int] | None:
    """The one number that was said wrong, and the one fret that it should be; else None."""
    wrong = [number for number in numbers if number.value not in right]
    missing = sorted(right - {number.value for number in numbers})
    return (wrong[0], missing[0]) if len(wrong) == len(missing) == 1 else None
