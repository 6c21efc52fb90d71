"""A scale box that was read out does not fit the key and the tuning.

## What it flags

A fret of a scale box, read out string by string, that gives a note outside the key in force; or a string or
fret that the instrument does not have. In pentatonic and blues keys the notes that players add to the
scale count as inside. Where more than a quarter of a box lies outside, it is a box of another scale, and
you get a remark in place of the questions.

## Why it matters

The box is where the draft looks for your hand afterwards, and what a student learns by heart.

## Example

"It's in B minor. Here's the box. On the low E, 7, 9, 10. On the A, 7, 8, 10. On the D, 7, 9, 11. On the G, 7,
9, 11. Now 9 on the G.": fret 8 of the A string is F, and B minor has F#, at 9.

## What to do

Choose the fret that belongs to the box, or keep it as said. The tab stays as it is: a box is not played.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import ask_at, remark_at
from notesgen.checks.tones import Tones, neck, tones
from notesgen.checks.view import tuning
from notesgen.checks.wording import fret_name, string_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Flag, FlagKind, Lesson, Option, Position
from notesgen.music.fretboard import Fretboard

KIND: FlagKind = "scale-slip"

_NEAREST = (-1, 1, -2, 2)
_FEW = 2
"""So many frets outside never make a box one of another scale, however small it is."""

Place = tuple[int, int]


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each fret of a box that does not fit; one remark for a box of another scale."""
    for position in lesson.facts.positions:
        places = _places(position)
        board, scale = neck(lesson, position.start), tones(lesson, position.start)
        if board is None:
            continue
        off = [place for place in places if not board.has(*place)]
        outside = [place for place in places if scale and place not in off and not scale.has(*place)]
        yield from (_off_the_neck(lesson, position, board, place) for place in off)
        if scale and len(outside) > max(_FEW, len(places) / 4):
            words = f"Of the {len(places)} notes of this box {len(outside)} are outside {scale.key}"
            yield remark_at(KIND, position.start, position.quote, f"{words}: it is a box of another scale.")
        elif scale:
            yield from (_outside(lesson, position, scale, place) for place in outside)


def _places(position: Position) -> list[Place]:
    """(String, fret) of the box, as read out."""
    return [(int(string), fret) for string, frets in position.frets.items() for fret in frets]


def _outside(lesson: Lesson, position: Position, scale: Tones, place: Place) -> Flag:
    string, fret = place
    pitch = scale.pitch(string, fret) or 0
    doubt = (
        f"In the box that you read out, {fret_name(fret)} of {string_name(lesson, position.start, string)} "
        f"gives {scale.spell(pitch)}, which is not in {scale.key}."
    )
    row = position.frets[str(string)]
    near = (fret + step for step in _NEAREST if fret + step not in row and scale.has(string, fret + step))
    others = tuple(
        Option(f"{fret_name(other)} ({scale.spell(scale.pitch(string, other) or 0)})") for other in near
    )
    return ask_at(KIND, position.start, position.quote, doubt, fret_name(fret), others)


def _off_the_neck(lesson: Lesson, position: Position, board: Fretboard, place: Place) -> Flag:
    string, fret = place
    strings = len(tuning(lesson, position.start))
    what = f"string {string}" if not 1 <= string <= strings else f"{fret_name(fret)} of string {string}"
    doubt = f"The box that you read out has {what}, which this instrument does not have."
    return ask_at(KIND, position.start, position.quote, doubt, "the box", (Option("a slip of the tongue"),))
