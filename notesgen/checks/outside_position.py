"""A single fret far out of the hand's reach from the position, between notes inside it.

## What it flags

A note more than five frets beyond the scale box that was read out last (on four strings or more), when
the notes right before and after it lie inside that box. Open strings and slides are not flagged.

## Why it matters

A hand that stays in position cannot get there and back between two notes. Mostly the number was misheard
("fourteen" for "four"), or it belongs to no note.

## Example

"Here's the box. On the low E, 3, 5. On the A, 2, 5. On the D, 2, 5. On the G, 2, 4. 5 on the D, hammer on to
12 and pull off to 5.": between two 5s, the 12 is probably another fret.

## What to do

Pick the fret that you played. If the hand does jump, keep the draft.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import query, with_fret
from notesgen.checks.box import Box, left_box
from notesgen.checks.hearing import heard_for
from notesgen.checks.view import in_place, number, single
from notesgen.checks.wording import fret_name, place_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Event, Flag, FlagKind, Lesson, Note, Option

KIND: FlagKind = "outside-position"

_OCTAVE = 12


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each such note."""
    for place in in_place(lesson):
        box, note = left_box(lesson, place), single(place.event)
        if box is not None and note is not None:
            yield _flag(lesson, place.event, note, box)


def _flag(lesson: Lesson, event: Event, note: Note, box: Box) -> Flag:
    fret = number(note) or 0
    doubt = (
        f"{place_name(lesson, event, note)} lies {box.distance(fret)} frets from the position in which the "
        f"hand is (frets {box.lowest} to {box.highest}), and the notes around it stay there."
    )
    near = (*heard_for(fret), fret - _OCTAVE, fret + _OCTAVE)
    others = tuple(
        Option(fret_name(other), (with_fret(event, note, other),))
        for other in dict.fromkeys(near)
        if box.distance(other) == 0
    )
    return query(KIND, (event,), doubt, fret_name(fret), others)
