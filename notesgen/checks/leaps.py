"""A single fret far from the notes on both sides of it, which lie close together.

## What it flags

A note, said as a number, more than nine frets from both its neighbours in the phrase, while these are
within five frets of one another. Open strings, taps, harmonics and slides leap by nature and are not
flagged.

## Why it matters

A hand does not jump ten frets for one note and back. Mostly captions run two numbers together, or hear
another number: "fourteen" for "four".

## Example

"5, 17, 7 on the G": the 17 is probably 7.

## What to do

Pick the fret that you played, or keep the leap.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import query, with_fret
from notesgen.checks.box import left_box
from notesgen.checks.hearing import heard_for
from notesgen.checks.view import InPlace, highest_fret, how, in_place, number, pressed, single
from notesgen.checks.wording import fret_name, place_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Event, Flag, FlagKind, How, Lesson, Note, Option

KIND: FlagKind = "fret-unsure"

_LEAP = 9
_CLOSE = 5
"""In frets. Common practice, no source."""
_LEAPS_BY_NATURE: frozenset[How] = frozenset({"tap", "harmonic", "slide"})


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each such note; a note that leaves its declared position is asked about there."""
    for place in in_place(lesson):
        note = single(place.event)
        if note is None or not _is_leap(lesson, place) or left_box(lesson, place):
            continue
        yield _flag(lesson, place, note)


def _is_leap(lesson: Lesson, place: InPlace) -> bool:
    if not place.inside_phrase or place.before is None or place.after is None:
        return False
    alone, around = pressed(place.event), pressed(place.before) + pressed(place.after)
    plain = all(_is_plain(event) for event in (place.before, place.event, place.after))
    if not plain or place.event.origin != "said" or max(alone) > highest_fret(lesson, place.event.start):
        return False
    leaps = all(abs(alone[0] - fret) > _LEAP for fret in around)
    return leaps and max(around) - min(around) <= _CLOSE


def _is_plain(event: Event) -> bool:
    """Whether the hand holds all of the event's notes down, without a slide to or from elsewhere."""
    held = len(pressed(event)) == len(event.notes) > 0
    slides = {"slide-in", "slide-out"} & set(event.marks)
    return held and not slides and all(how(event, note) not in _LEAPS_BY_NATURE for note in event.notes)


def _flag(lesson: Lesson, place: InPlace, note: Note) -> Flag:
    event, around = place.event, pressed(place.before) + pressed(place.after)
    span = " and ".join(str(fret) for fret in dict.fromkeys(around))
    fret = number(note) or 0
    doubt = (
        f"{place_name(lesson, event, note)} is a leap of {min(abs(fret - other) for other in around)} frets "
        f"there and back: the notes around it are at {span}."
    )
    return query(KIND, (event,), doubt, fret_name(fret), _others(event, note, around))


def _others(event: Event, note: Note, around: tuple[int, ...]) -> tuple[Option, ...]:
    middle = sum(around) / len(around)
    near = [fret for fret in heard_for(number(note) or 0) if abs(fret - middle) <= _CLOSE]
    near.sort(key=lambda fret: abs(fret - middle))
    return tuple(Option(fret_name(fret), (with_fret(event, note, fret),)) for fret in near)
