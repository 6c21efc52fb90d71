"""One note of a passage told an octave apart that is not an octave apart.

## What it flags

A passage of six notes or more, told once more right behind an octave lower or higher, in which one note
alone is a semitone off. Not flagged: passages told again at the same pitch, which may end otherwise
on purpose.

## Why it matters

The same phrase an octave away keeps its intervals, and a fret beside the right one may fit the key.

## Example

"8, 10, 8 on the B, 9, 7 on the G, 5 on the G. Now 5, 7, 5 on the D, 7, 5 on the A, 4 on the A.": the last
note would be fret 3.

## What to do

Pick the fret that you played. Keep the draft if the copy does go otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notesgen.checks.answers import query, with_fret
from notesgen.checks.tones import neck
from notesgen.checks.view import number, single
from notesgen.checks.wording import place_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Event, Flag, FlagKind, Lesson, Note, Option

KIND: FlagKind = "fret-unsure"

_LEAST, _MOST = 6, 24
"""Notes of a passage: of fewer, too many are alike by chance. Common practice, no source."""
_OCTAVE = 12
_SLIP = 1
"""Semitones by which a number is misspoken. Common practice, no source."""


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each copy with one such note."""
    pitches = [_pitch(lesson, event) for event in lesson.events]
    asked: set[int] = set()
    for start in range(_LEAST, len(pitches) - _LEAST + 1):
        for size in range(_LEAST, min(_MOST, start, len(pitches) - start) + 1):
            odd = _odd_one(pitches[start - size : start], pitches[start : start + size])
            if odd is not None and start + odd[0] not in asked:
                asked.add(start + odd[0])
                yield from _flag(lesson, lesson.events[start + odd[0]], odd[1])


def _pitch(lesson: Lesson, event: Event) -> int | None:
    """The pitch of a single fretted note, None for anything else."""
    note, board = single(event), neck(lesson, event.start)
    fret = number(note) if note else None
    if note is None or board is None or fret is None or not board.has(note.string, fret):
        return None
    return board.pitch(note.string, fret)


def _odd_one(first: Sequence[int | None], copy: Sequence[int | None]) -> tuple[int, int] | None:
    """The place of the one note that misses its octave, and by how many semitones; None if there is none."""
    if None in first or None in copy:
        return None
    for octave in (-_OCTAVE, _OCTAVE):
        misses = ((place, by) for place, by in enumerate(map(_apart, first, copy)) if by != octave)
        odd = next(misses, None)
        # Most passages are no copies: a second miss, which comes early, ends the comparison.
        if odd is not None and abs(odd[1] - octave) <= _SLIP and next(misses, None) is None:
            return odd[0], odd[1] - octave
    return None


def _apart(before: int | None, after: int | None) -> int:
    return (after or 0) - (before or 0)


def _flag(lesson: Lesson, event: Event, by: int) -> Iterator[Flag]:
    note = event.notes[0]
    fret = (number(note) or 0) - by
    board = neck(lesson, event.start)
    if board is None or not board.has(note.string, fret):
        return
    place = place_name(lesson, event, note)
    doubt = f"This passage is the one before it, an octave away, but for {place}."
    label = place_name(lesson, event, Note(note.string, fret))
    others = (Option(f"{label}, the octave", (with_fret(event, note, fret),)),)
    yield query(KIND, (event,), doubt, place, others)
