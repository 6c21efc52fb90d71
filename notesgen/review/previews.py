"""What an answer would look like: the notes around the doubt, with the answer's change made."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.lesson.model import Change, Event, Flag, Lesson, Option, Stroke
from notesgen.pack.layout.sheet import Passage

AROUND = 3  # notes shown on either side
LONGEST = 14  # notes shown at most


def previews(lesson: Lesson, flag: Flag) -> tuple[Passage, ...]:
    """A passage for each option of the flag, in their order; no events where the lesson has none there."""
    around = _around(lesson, flag)
    return tuple(_passage(_answered(around, option)) for option in flag.options)


def _around(lesson: Lesson, flag: Flag) -> Sequence[Event]:
    """The events of the flag with their neighbours in the phrase."""
    wanted = {*flag.events, *(change.event for option in flag.options for change in option.change)}
    first = next((event for event in lesson.events if event.id in wanted), None)
    if first is None:
        return ()
    events = [event for event in lesson.events if event.phrase == first.phrase]
    places = [place for place, event in enumerate(events) if event.id in wanted]
    start = max(0, places[0] - AROUND)
    return events[start : min(places[-1] + AROUND + 1, start + LONGEST)]


def _answered(events: Sequence[Event], option: Option) -> tuple[Event, ...]:
    changes = {change.event: change for change in option.change}
    return tuple(each for e in events for each in (_changed(e, changes[e.id]) if e.id in changes else (e,)))


def _changed(event: Event, change: Change) -> tuple[Event, ...]:
    if change.drop:
        return ()
    made = replace(
        event,
        notes=change.notes or event.notes,
        how=change.how or event.how,
        bend=event.bend if change.bend is None else change.bend,
        to=event.to if change.to is None else change.to,
    )
    again = (replace(made, id=f"{event.id}.{n}") for n in range(1, change.times or 1))
    return (*_written(change.before, event, "b"), made, *again, *_written(change.after, event, "a"))


def _written(strokes: Sequence[Stroke], beside: Event, side: str) -> tuple[Event, ...]:
    return tuple(
        replace(
            beside,
            id=f"{beside.id}.{side}{n}",
            notes=stroke.notes,
            how=stroke.how,
            bend=stroke.bend,
            to=stroke.to,
            marks=stroke.marks,
        )
        for n, stroke in enumerate(strokes, start=1)
    )


def _passage(events: tuple[Event, ...]) -> Passage:
    return Passage("", events[0].start if events else 0.0, events, (), (), ())
