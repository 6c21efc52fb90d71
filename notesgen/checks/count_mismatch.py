"""You announced a number of notes, and another number followed.

## What it flags

"That's five notes", "a four-note lick", "one pick, three notes", where the run of notes just told, or about
to be told, has one note more or one less. A number that fits any run there is not flagged, nor one that is
further off: it may count something else.

## Why it matters

A note was forgotten or said twice, in the lesson or in the draft.

## Example

"8, 7, 5 on the B. That's four notes.": only three were said.

## What to do

Listen at that place. Put in what is missing, or take out what is too much; keep the draft if it is complete.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import query
from notesgen.checks.wording import place_name
from notesgen.lesson.evidence import Counted, Evidence
from notesgen.lesson.model import Change, Event, Flag, FlagKind, Lesson, Option

KIND: FlagKind = "count-mismatch"

_LEAST, _MOST = 3, 9
"""Counts that are taken at their word. Two are too often two of something else; nobody counts ten on the
fly. Common practice, no source."""


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each count that no run of notes fits, where the likeliest run is one note off."""
    for counted in evidence.counted:
        runs = [run for ids in counted.runs if (run := _events(lesson, ids))]
        fits = any(counted.count in _sizes(run) for run in runs)
        if runs and not fits and _LEAST <= counted.count <= _MOST and abs(len(runs[0]) - counted.count) == 1:
            yield _flag(lesson, counted, runs[0])


def _events(lesson: Lesson, run: tuple[str, ...]) -> tuple[Event, ...]:
    """The events of a run as they stand in the lesson."""
    return tuple(event for event in lesson.events if event.id in run)


def _sizes(run: tuple[Event, ...]) -> set[int]:
    """The numbers that may count the run: strokes, strings sounded, strokes without repeated ones."""
    struck = len(run)
    fresh = sum(not at or event.notes != run[at - 1].notes for at, event in enumerate(run))
    return {struck, fresh, sum(len(event.notes) for event in run)}


def _flag(lesson: Lesson, counted: Counted, run: tuple[Event, ...]) -> Flag:
    first, last = run[0], run[-1]
    doubt = f'You count {counted.count} notes ("{counted.quote}"), and the draft has {len(run)} there.'
    if len(run) > counted.count:
        others = tuple(
            Option(f"without {place_name(lesson, event, event.notes[0])}", (Change(event.id, drop=True),))
            for event in (last, first)
            if event.notes
        )
    else:
        again = place_name(lesson, last, last.notes[0]) if last.notes else "the last note"
        others = (Option(f"{again} struck twice", (Change(last.id, times=2),)),)
    return query(KIND, run, doubt, f"the {len(run)} notes", others)
