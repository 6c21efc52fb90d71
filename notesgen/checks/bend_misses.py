"""A bend that does not arrive where it should.

## What it flags

A bend struck together with an unbent note that it comes within two semitones of but does not meet; and a
single bend by a semitone, a tone or a tone and a half that ends outside the key with nothing said of it.
Quarter-tone bends have no place in a key and are left alone.

## Why it matters

A unison bend is a unison: if the two notes differ, a fret or a string is wrong. A bend that ends outside
the key mostly means that its amount, or its fret, is wrong.

## Example

"Bend 12 on the G string a full step and play 9 on the B string together": the bend ends on A, the B string
sounds G#.

## What to do

Pick the amount or the fret that you played. Keep the draft if the rub is meant.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import query, with_bend, with_fret
from notesgen.checks.fit import doubtful_keys, fits
from notesgen.checks.tones import Tones, neck, tones
from notesgen.checks.view import bend, how, number, single
from notesgen.checks.wording import fret_name, place_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import BENDS, Event, Flag, FlagKind, Lesson, Note, Option
from notesgen.music.fretboard import Fretboard

KIND: FlagKind = "bend-misses"

_AMOUNTS = {1.0: "a half step", 2.0: "a full step", 3.0: "a step and a half"}
_NEARLY = 2
"""Ending so close to the other note, in semitones, a bend is meant to meet it. Common practice, no source."""


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each such bend."""
    doubtful = doubtful_keys(fits(lesson, evidence))
    for event in lesson.events:
        board, scale = neck(lesson, event.start), tones(lesson, event.start)
        note = single(event)
        if note is None and board is not None:
            yield from _off_the_other(lesson, board, event)
        elif note and scale and scale.key not in doubtful and event.id not in evidence.outside:
            yield from _off_the_key(lesson, scale, event, note)


def _off_the_other(lesson: Lesson, board: Fretboard, event: Event) -> Iterator[Flag]:
    for note in event.notes:
        amount = bend(event, note)
        if how(event, note) not in BENDS or amount is None or amount < 1:
            continue
        for other in event.notes:
            gap = _gap(board, event, note, other)
            if gap is not None and 0 < abs(gap) <= _NEARLY:
                yield _unison(lesson, board, event, note, other)


def _gap(board: Fretboard, event: Event, note: Note, other: Note) -> float | None:
    """How far the bend ends above an unbent note, in semitones; None if that is not to be compared."""
    if how(event, other) in (*BENDS, "release") or other.string == note.string:
        return None
    bent, plain = _pitch(board, note), _pitch(board, other)
    return None if bent is None or plain is None else bent + (bend(event, note) or 0) - plain


def _pitch(board: Fretboard, note: Note) -> int | None:
    fret = number(note)
    return board.pitch(note.string, fret) if fret is not None and board.has(note.string, fret) else None


def _unison(lesson: Lesson, board: Fretboard, event: Event, note: Note, other: Note) -> Flag:
    doubt = (
        f"The bend at {place_name(lesson, event, note)} comes close to {place_name(lesson, event, other)} "
        f"but does not meet it."
    )
    others = []
    for amount, words in _AMOUNTS.items():
        if _gap(board, event, note, other) == (bend(event, note) or 0) - amount:
            others.append(Option(f"a bend of {words}", (with_bend(event, note, amount),)))
    gap = _gap(board, event, note, other) or 0
    for moved, by in ((other, gap), (note, -gap)):
        fret = (number(moved) or 0) + int(by)
        if by == int(by) and board.has(moved.string, fret):
            label = f"{fret_name(fret)} instead of {fret_name(number(moved) or 0)}"
            others.append(Option(label, (with_fret(event, moved, fret),)))
    return query(KIND, (event,), doubt, "both notes", tuple(others))


def _off_the_key(lesson: Lesson, scale: Tones, event: Event, note: Note) -> Iterator[Flag]:
    pitch, amount = scale.pitch(note.string, number(note) or 0), bend(event, note)
    if how(event, note) not in BENDS or amount not in _AMOUNTS or pitch is None:
        return
    target = pitch + int(amount)
    if scale.fits(target):
        return
    doubt = (
        f"{place_name(lesson, event, note)} bent {_AMOUNTS[amount]} arrives at {scale.spell(target)}, "
        f"which is not in {scale.key}."
    )
    others = tuple(
        Option(f"a bend of {words} (to {scale.spell(pitch + int(other))})", (with_bend(event, note, other),))
        for other, words in _AMOUNTS.items()
        if other <= _NEARLY and scale.fits(pitch + int(other))
    )
    yield query(KIND, (event,), doubt, f"the bend of {_AMOUNTS[amount]}", others)
