"""A lesson written anew from its edited rows: phrases, repeats and the ledger of numbers stay true."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec.structs import replace

from notesgen.decisions.rows import Row
from notesgen.lesson.model import Event, Lesson, Number, Phrase, Repeat


def write_rows(lesson: Lesson, rows: Mapping[str, Row], recap: frozenset[str]) -> Lesson:
    """The lesson with the rows in the place of its events. `recap` holds the ids of events only told over."""
    events = tuple(event for old in lesson.events for event in rows[old.id].events)
    return replace(
        lesson,
        events=events,
        phrases=phrases_of(lesson.phrases, events),
        repeats=tuple(_repeats(lesson, rows)),
        numbers=tuple(_number(number, rows, recap) for number in lesson.numbers),
    )


def phrases_of(phrases: Iterable[Phrase], events: Iterable[Event]) -> tuple[Phrase, ...]:
    """The phrases with the events that name them. One without events goes; its demonstrations stay, with the
    phrase before it, or the next one where there is none."""
    held: dict[str, list[Event]] = {}
    for event in events:
        held.setdefault(event.phrase, []).append(event)
    kept: list[Phrase] = []
    loose: tuple[tuple[float, float], ...] = ()
    for phrase in phrases:
        inside = held.get(phrase.id)
        if inside:
            ids = tuple(event.id for event in inside)
            start, end = inside[0].start, inside[-1].end
            whole = replace(phrase, events=ids, start=start, end=end, demos=loose + phrase.demos)
            kept.append(phrase if phrase.events == ids and not loose else whole)
            loose = ()
        elif kept:
            kept[-1] = replace(kept[-1], demos=kept[-1].demos + phrase.demos)
        else:
            loose += phrase.demos
    return tuple(kept)


def _repeats(lesson: Lesson, rows: Mapping[str, Row]) -> Iterable[Repeat]:
    """The repeats around what is left of their notes; further strokes of the last note belong to them."""
    order = {event.id: place for place, event in enumerate(lesson.events)}
    for repeat in lesson.repeats:
        if repeat.first not in order or repeat.last not in order:
            continue
        inside = lesson.events[order[repeat.first] : order[repeat.last] + 1]
        left = [name for event in inside for name in _inner(event, rows[event.id], inside)]
        if left:
            yield replace(repeat, first=left[0], last=left[-1])


def _inner(event: Event, row: Row, inside: Sequence[Event]) -> list[str]:
    """The ids of a row that lie inside a repeat: new notes at its outer edges lie outside."""
    names = [each.id for each in row.events]
    own = [name for name in names if name == event.id or name in row.struck]
    if not own:
        return [] if event in (inside[0], inside[-1]) else names
    first = names.index(own[0]) if event is inside[0] else 0
    last = names.index(own[-1]) + 1 if event is inside[-1] else len(names)
    return names[first:last]


def _number(number: Number, rows: Mapping[str, Row], recap: frozenset[str]) -> Number:
    if number.event is None or number.event not in rows:
        return number
    if number.event in recap:
        return replace(number, role="recap", event=None)
    row = rows[number.event]
    if not row.dropped:
        return number
    return replace(number, event=next((event.id for event in row.events), None))
