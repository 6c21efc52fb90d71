"""One pair in a run of octaves that is a fret off.

## What it flags

Two notes struck together that lie eleven or thirteen semitones apart, between pairs on the same strings that
are octaves.

## Why it matters

A run of octaves keeps its shape: where one pair is off by a fret, one of its two numbers was misspoken, and
both may well be in the key.

## Example

"7 on the A and 9 on the G together. Then 6 on the A and 9 on the G together. Then 4 on the A and 6 on the G
together.": the second pair would be 6 and 8.

## What to do

Pick the pair that you played.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import query, with_fret
from notesgen.checks.tones import neck
from notesgen.checks.view import InPlace, in_place, number
from notesgen.checks.wording import listed, place_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Event, Flag, FlagKind, Lesson, Note, Option

KIND: FlagKind = "fret-unsure"

_OCTAVE = 12
Pair = tuple[Note, Note]


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each such pair."""
    for place in in_place(lesson):
        pair, apart = _pair(lesson, place.event)
        if pair is None or abs(apart - _OCTAVE) != 1 or not _among_octaves(lesson, place):
            continue
        said = listed(tuple(place_name(lesson, place.event, note) for note in pair), "and")
        doubt = f"{said}, struck together, are no octave, and the pairs around them are."
        yield query(
            KIND, (place.event,), doubt, "the pair as said", _others(lesson, place.event, pair, apart)
        )


def _pair(lesson: Lesson, event: Event | None) -> tuple[Pair | None, int]:
    """The two fretted notes of an event, the lower one first, and the semitones between them."""
    board = neck(lesson, event.start) if event else None
    if event is None or board is None or len(event.notes) != 2:
        return None, 0
    low, high = sorted(event.notes, key=lambda note: -note.string)
    frets = number(low), number(high)
    if (
        not frets[0]
        or not frets[1]
        or not (board.has(low.string, frets[0]) and board.has(high.string, frets[1]))
    ):
        return None, 0
    return (low, high), board.pitch(high.string, frets[1]) - board.pitch(low.string, frets[0])


def _among_octaves(lesson: Lesson, place: InPlace) -> bool:
    """Whether the pairs before and after it, on its two strings and in its phrase, are octaves."""
    strings = {note.string for note in place.event.notes}
    sides = (place.before, place.after)
    alike = [side for side in sides if side and {note.string for note in side.notes} == strings]
    octaves = [_pair(lesson, side)[1] == _OCTAVE for side in alike]
    return place.inside_phrase and octaves == [True, True]


def _others(lesson: Lesson, event: Event, pair: Pair, apart: int) -> tuple[Option, ...]:
    """Either note a fret up or down, so that the two are an octave."""
    low, high = pair
    moves = ((high, _OCTAVE - apart), (low, apart - _OCTAVE))
    board = neck(lesson, event.start)
    others = []
    for note, step in moves:
        fret = (number(note) or 0) + step
        if board is not None and board.has(note.string, fret):
            label = f"{place_name(lesson, event, Note(note.string, fret))} in the pair"
            others.append(Option(label, (with_fret(event, note, fret),)))
    return tuple(others)
