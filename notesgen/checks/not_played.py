"""You named a note that is not played.

## What it flags

A note for which the recording was searched, and at whose place nothing sounds. Dead notes are not judged.

## Why it matters

Either the note is only spoken of, and does not belong into the tab, or the recording lacks it.

## Example

The words say "9 on the G, then 7", and only the 7 sounds.

## What to do

Listen at that place. Take the note out if it is only spoken of.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import query
from notesgen.checks.wording import listed, place_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Flag, FlagKind, Lesson

KIND: FlagKind = "not-played"


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each event whose place in the recording is known and silent."""
    for event in lesson.events:
        frets = [note.fret for note in event.notes if note.fret != "x"]
        if event.played is None or event.played.midi is not None or not frets:
            continue
        said = listed(tuple(place_name(lesson, event, note) for note in event.notes), "and")
        doubt = f"The words say {said}, and the recording sounds nothing there."
        yield query(KIND, (event,), doubt, "the note" if len(event.notes) == 1 else "the notes")
