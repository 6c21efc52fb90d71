"""You played a note that you did not name.

## What it flags

A sound of the recording, among the notes of a phrase, that none of the words names.

## Why it matters

What is played and not said is missing from the tab: an open string on the way, a grace note, or a slip.

## Example

An open string sounds between "7 on the A" and "5 on the D".

## What to do

Listen, and put the note in by hand where it belongs to the piece.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import ask_at
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Flag, FlagKind, Lesson, Option, Played
from notesgen.music.pitch import HIGHEST, LOWEST, name

KIND: FlagKind = "played-unsaid"


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each sound without an event."""
    for sound in evidence.heard:
        yield _flag(sound)


def _flag(sound: Played) -> Flag:
    what = "a note"
    if sound.midi is not None and LOWEST <= round(sound.midi) <= HIGHEST:
        what = f"the note {name(round(sound.midi)).rstrip('-0123456789')}"
    doubt = f"The recording sounds {what} here, and no word names it."
    missing = (Option("a note of the piece, to be put in by hand"),)
    return ask_at(KIND, sound.start, "", doubt, "the tab without it", missing)
