"""Notes struck together that one hand cannot hold.

## What it flags

Fretted notes of one stroke more than five frets apart (six where the lowest lies above fret 12), and two
notes of one stroke on the same string. Open strings, dead notes, taps and harmonics need no reach.

## Why it matters

It cannot be played, so a fret or a string is wrong, or the notes were meant one after the other.

## Example

"3 on the A string and 12 on the D string, together".

## What to do

Pick the fret or the string that you played. If the notes follow one another, keep the draft here and
split them.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import structs

from notesgen.checks.answers import query
from notesgen.checks.hearing import heard_for
from notesgen.checks.tones import neck
from notesgen.checks.view import capo, how, number, tuning
from notesgen.checks.wording import place_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Change, Event, Flag, FlagKind, How, Lesson, Note, Option

KIND: FlagKind = "out-of-reach"

_SPAN, _SPAN_ABOVE_TWELVE = 5, 6
"""Frets between the lowest and the highest that a hand holds. Common practice, no source."""
_OTHER_HAND: frozenset[How] = frozenset({"tap", "harmonic"})


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each such event."""
    for event in lesson.events:
        reason = _trouble(lesson, event)
        if reason is not None:
            yield query(KIND, (event,), reason, "the notes together", _others(lesson, event))


def _trouble(lesson: Lesson, event: Event) -> str | None:
    """Why the notes cannot be held, or None."""
    for index, note in enumerate(event.notes):
        if any(other.string == note.string for other in event.notes[:index]):
            return f"{place_name(lesson, event, note)} has another note of the same stroke on its string."
    held = sorted(_held(event), key=lambda note: number(note) or 0)
    if not held:
        return None
    lowest, highest = held[0], held[-1]
    span = (number(highest) or 0) - (number(lowest) or 0)
    above_twelve = (number(lowest) or 0) + capo(lesson, event.start) > 12
    if span <= (_SPAN_ABOVE_TWELVE if above_twelve else _SPAN):
        return None
    names = f"{place_name(lesson, event, lowest)} and {place_name(lesson, event, highest)}"
    return f"{names}, struck together, lie {span} frets apart."


def _held(event: Event) -> tuple[Note, ...]:
    return tuple(note for note in event.notes if number(note) and how(event, note) not in _OTHER_HAND)


def _others(lesson: Lesson, event: Event) -> tuple[Option, ...]:
    """Each single change of a note, the last said first, that a hand can hold."""
    others = []
    for note in reversed(event.notes):
        for other in _instead(lesson, event, note):
            notes = tuple(other if each is note else each for each in event.notes)
            if _trouble(lesson, structs.replace(event, notes=notes)) is None:
                label = f"{place_name(lesson, event, other)} instead of {place_name(lesson, event, note)}"
                others.append(Option(label, (Change(event.id, notes=notes),)))
    return tuple(others)


def _instead(lesson: Lesson, event: Event, note: Note) -> Iterator[Note]:
    """What else a note may be: a fret that sounds alike, the next string, the same pitch elsewhere."""
    fret, board = number(note), neck(lesson, event.start)
    if fret is None:
        return
    for heard in heard_for(fret):
        yield structs.replace(note, fret=heard)
    for string in (note.string - 1, note.string + 1):
        if 1 <= string <= len(tuning(lesson, event.start)):
            yield structs.replace(note, string=string)
    if board is not None and board.has(note.string, fret):
        for string, place in board.places(board.pitch(note.string, fret)):
            yield structs.replace(note, string=string, fret=place)
