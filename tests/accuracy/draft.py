"""A drafted lesson as the measures see it: its notes in playing order, its open queries."""

from __future__ import annotations

from msgspec import Struct

from notesgen.lesson.model import Event, Flag, Lesson
from tests.accuracy.gold import Sounded

NEAR = 12.0  # seconds between a query and what it points at, when it names no event


class DraftNote(Sounded, frozen=True, kw_only=True):
    """A note of the draft, and the id of the event that it belongs to."""

    event: str


class Queries(Struct, frozen=True):
    """The queries that still stand open."""

    flags: tuple[Flag, ...]

    def name(self, event: str) -> bool:
        """True when a query points at this event."""
        return any(event in flag.events for flag in self.flags)

    def reach(self, time: float) -> bool:
        """True when a query stands within NEAR seconds of `time`."""
        return any(reaches(flag, time) for flag in self.flags)


def reaches(flag: Flag, time: float) -> bool:
    """True when `time` lies in the flag's span, widened by NEAR seconds at both ends."""
    return flag.start - NEAR <= time <= flag.end + NEAR


def queries(lesson: Lesson) -> Queries:
    """The flags that ask something and have no answer yet."""
    return Queries(tuple(f for f in lesson.flags if f.level == "query" and not f.decided))


def played_order(lesson: Lesson) -> list[Event]:
    """Events in the order of the phrases, then those that no phrase holds."""
    by_id = {event.id: event for event in lesson.events}
    ordered = [by_id[i] for phrase in lesson.phrases for i in phrase.events if i in by_id]
    placed = {event.id for event in ordered}
    return ordered + [event for event in lesson.events if event.id not in placed]


def draft_notes(lesson: Lesson) -> tuple[DraftNote, ...]:
    """Each note of each event, with what it takes over from its event."""
    return tuple(note for event in played_order(lesson) for note in as_notes(event))


def as_notes(event: Event) -> list[DraftNote]:
    """The notes of one event, with what they take over from it."""
    return [
        DraftNote(
            time=event.start,
            string=note.string,
            fret=note.fret,
            how=note.how or event.how,
            bend=event.bend if note.bend is None else note.bend,
            to=event.to if note.to is None else note.to,
            marks=frozenset(event.marks),
            together=len(event.notes) > 1,
            event=event.id,
        )
        for note in event.notes
    ]
