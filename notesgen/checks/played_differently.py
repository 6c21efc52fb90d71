"""The recording sounds another note than you say.

## What it flags

A note at whose place the recording sounds another pitch, octaves apart. Harmonics, taps and dead notes are
not judged, and a bend may sound anywhere between its fret and where it goes.

## Why it matters

You play by heart and speak off the cuff, so of the two the hands are mostly right.

## Example

The words say "9 on the G", and the recording sounds D, which is fret 7.

## What to do

Listen at that place, and choose.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import query, with_fret, with_note
from notesgen.checks.sounding import agrees, sounds
from notesgen.checks.view import capo, number, single, tuning
from notesgen.checks.wording import fret_name, place_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Event, Flag, FlagKind, Lesson, Note, Option
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import HIGHEST, LOWEST, name

KIND: FlagKind = "played-differently"

_NEAR_FRETS = 4
"""Frets within which the note that sounds is looked for on a neighbouring string."""


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each event that a recording contradicts."""
    for event in lesson.events:
        heard = event.played.midi if event.played else None
        expected = sounds(lesson, event)
        if heard is None or not expected or not LOWEST <= round(heard) <= HIGHEST:
            continue
        if not agrees(heard, expected):
            yield _flag(lesson, event, round(heard))


def _flag(lesson: Lesson, event: Event, heard: int) -> Flag:
    said = " and ".join(place_name(lesson, event, note) for note in event.notes)
    letter = name(heard).rstrip("-0123456789")
    doubt = f"The words say {said}, and the recording sounds {letter} there."
    note = single(event)
    kept = "what was said"
    if note is None:
        return query(KIND, (event,), doubt, kept)
    return query(KIND, (event,), doubt, kept, _others(lesson, event, note, heard))


def _others(lesson: Lesson, event: Event, note: Note, heard: int) -> tuple[Option, ...]:
    """The note that sounds, on the string that was said first, then near it on others."""
    board, fret = Fretboard(tuning(lesson, event.start), capo(lesson, event.start)), number(note) or 0
    places = [
        (string, place)
        for octave in (0, -12, 12)
        for string, place in board.places(heard + octave)
        if abs(place - fret) <= _NEAR_FRETS
    ]
    places.sort(key=lambda place: (place[0] != note.string, abs(place[1] - fret)))
    others = []
    for string, place in places:
        if string == note.string:
            others.append(Option(fret_name(place), (with_fret(event, note, place),)))
        else:
            other = Note(string, place, note.how, note.bend, note.to)
            others.append(Option(place_name(lesson, event, other), (with_note(event, note, other),)))
    return tuple(others)
