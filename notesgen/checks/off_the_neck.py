"""A string or a fret that the instrument does not have.

## What it flags

A string number beyond the tuning's strings, and a fret below 0 or beyond 24 (with a capo, 24 less the capo's
fret, since frets count from the capo).

## Why it matters

It cannot be played, so a number was misheard or run together with the next: "5 7" becomes "57" in captions,
"thirteen" becomes "30".

## Example

"Capo on the seventh fret. 19 on the B string": with that capo the neck ends at 17. Was it 9?

## What to do

Pick the fret or the string that you said. Where two notes ran together, take one here and add the other.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import query, with_fret, with_string
from notesgen.checks.hearing import heard_for
from notesgen.checks.view import capo, highest_fret, in_place, number, other_fret, tuning
from notesgen.checks.wording import place_name, string_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Change, Event, Flag, FlagKind, Lesson, Note, Option

KIND: FlagKind = "off-the-neck"


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each such note."""
    for place in in_place(lesson):
        for note in place.event.notes:
            if not 1 <= note.string <= len(tuning(lesson, place.event.start)):
                yield _no_string(lesson, place.event, note, place.before)
            elif not _all_on_neck(lesson, place.event, note):
                yield _no_fret(lesson, place.event, note)


def _all_on_neck(lesson: Lesson, event: Event, note: Note) -> bool:
    frets = (number(note), other_fret(event, note))
    return all(0 <= fret <= highest_fret(lesson, event.start) for fret in frets if fret is not None)


def _no_string(lesson: Lesson, event: Event, note: Note, before: Event | None) -> Flag:
    strings = len(tuning(lesson, event.start))
    doubt = f"There is no string {note.string} on an instrument of {strings} strings."
    taken = {each.string for each in event.notes}
    carried = before.notes[0].string if before and before.notes else 0
    others = []
    if 1 <= carried <= strings and carried not in taken:
        label = f"{string_name(lesson, event.start, carried)}, as the note before"
        others.append(Option(label, (with_string(event, note, carried),)))
    return query(KIND, (event,), doubt, f"string {note.string}", (*others, _nothing(event, note)))


def _no_fret(lesson: Lesson, event: Event, note: Note) -> Flag:
    highest, at = highest_fret(lesson, event.start), capo(lesson, event.start)
    behind = f", counted from the capo at fret {at}" if at else ""
    fret, target = number(note), other_fret(event, note)
    wrong = fret if fret is not None and not 0 <= fret <= highest else target
    doubt = (
        f"{place_name(lesson, event, note)}: there is no fret {wrong}; the neck ends at {highest}{behind}."
    )
    others = tuple(
        Option(f"fret {heard}", (with_fret(event, note, heard),))
        for heard in heard_for(fret or 0)
        if wrong == fret and 0 <= heard <= highest and (target is None or 0 <= target <= highest)
    )
    return query(KIND, (event,), doubt, f"fret {wrong}", (*others[:2], _nothing(event, note)))


def _nothing(event: Event, note: Note) -> Option:
    """The number was no note at all."""
    rest = tuple(each for each in event.notes if each is not note)
    change = Change(event.id, notes=rest) if rest else Change(event.id, drop=True)
    return Option("no note at all", (change,))
