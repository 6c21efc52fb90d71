"""A hammer-on, pull-off, slide or release on a string on which nothing sounds before it.

## What it flags

A hammer-on, a pull-off or a slide whose note before lies on another string; a release on a string on
which nothing was bent; a trill that names one fret only and has no note before it on its string. Not
flagged: a hammer-on that opens a phrase ("from nowhere"), a slide into a note from no fret in particular,
and a trill between two named frets.

## Why it matters

These techniques join two notes of one string. When the note before is on another string, one of the two
strings is wrong, or the note was picked.

## Example

"5 on the G string, 7 on the B string, pull off to 5 on the D string": there is nothing on the D string to
pull off from.

## What to do

Pick the string that you played, or say that the note was picked. Keep the draft if you did hammer the
note from nowhere.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import structs

from notesgen.checks.answers import query, with_how, with_string
from notesgen.checks.view import InPlace, highest_fret, how, in_place, number, on_string, other_fret, single
from notesgen.checks.wording import place_name, string_name, technique
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Event, Flag, FlagKind, How, Lesson, Note, Option

KIND: FlagKind = "across-strings"

_JOINS: frozenset[How] = frozenset({"hammer-on", "pull-off", "slide", "release", "trill"})
_BENT: frozenset[How] = frozenset({"bend", "pre-bend", "release"})
# A held bend may be released after a few notes on other strings. Common practice, no source.
_HELD_FOR = 8


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each event none of whose joined notes has anything to come from."""
    for place in in_place(lesson):
        joins = [note for note in place.event.notes if how(place.event, note) in _JOINS]
        if joins and not any(_has_source(lesson, place, note) for note in joins):
            yield _flag(lesson, place, joins[0], evidence)


def _has_source(lesson: Lesson, place: InPlace, note: Note) -> bool:
    event, word = place.event, how(place.event, note)
    if word == "release":
        return any(_bent_string(earlier, note.string) for earlier in _recent(lesson, place))
    from_nowhere = (
        (word == "hammer-on" and place.opens_phrase)
        or (word == "slide" and "slide-in" in event.marks)
        or (word == "trill" and other_fret(event, note) is not None)
    )
    return from_nowhere or on_string(place.before, note.string) is not None


def _recent(lesson: Lesson, place: InPlace) -> tuple[Event, ...]:
    """The events just before, nearest first."""
    return lesson.events[max(place.index - _HELD_FOR, 0) : place.index][::-1]


def _bent_string(event: Event, string: int | None = None) -> int | None:
    """The string (any, or this one) that is bent in an event, None if there is none."""
    bent = (note.string for note in event.notes if how(event, note) in _BENT)
    return next((number for number in bent if string in (None, number)), None)


def _flag(lesson: Lesson, place: InPlace, note: Note, evidence: Evidence) -> Flag:
    event, word = place.event, how(place.event, note)
    others = _others(lesson, place, note, evidence)
    doubt = f"{technique(word)} is said at {place_name(lesson, event, note)}, {_reason(lesson, place, word)}."
    return query(KIND, (event,), doubt, f"the {word}", others)


def _reason(lesson: Lesson, place: InPlace, word: How) -> str:
    if word == "release":
        return "but nothing was bent on that string"
    if place.before is None or not place.before.notes:
        return "but no note comes before it"
    string = string_name(lesson, place.event.start, place.before.notes[0].string)
    return f"but the note before it is on {string}"


def _others(lesson: Lesson, place: InPlace, note: Note, evidence: Evidence) -> tuple[Option, ...]:
    event, word = place.event, how(place.event, note)
    if word == "release":
        strings = (_bent_string(earlier) for earlier in _recent(lesson, place))
    else:
        notes = place.before.notes if place.before else ()
        strings = (each.string for each in notes if _goes(word, each, note))
    string = next((string for string in strings if string and not on_string(event, string)), None)
    others = []
    if string is not None:
        label = f"{technique(word)} on {string_name(lesson, event.start, string)}"
        others.append(Option(label, (with_string(event, note, string),)))
    others += _with_note_before_moved(lesson, place, note, evidence)
    others.append(Option("a picked note", (with_how(event, note, "pick"),)))
    return tuple(others)


def _with_note_before_moved(
    lesson: Lesson, place: InPlace, note: Note, evidence: Evidence
) -> tuple[Option, ...]:
    """The other way to bring both notes on one string, unless the string before was said in so many words."""
    before, source = place.before, single(place.before)
    word = how(place.event, note)
    if before is None or source is None or before.id in evidence.sure or not _goes(word, source, note):
        return ()
    fret = number(source)
    if word == "release" or fret is None or fret > highest_fret(lesson, before.start):
        return ()
    moved = place_name(lesson, before, structs.replace(source, string=note.string))
    return (Option(f"{technique(word)} after {moved}", (with_string(before, source, note.string),)),)


def _goes(word: How, source: Note, note: Note) -> bool:
    """Whether the technique leads from one fret to the other, were they on one string."""
    start, end = number(source), number(note)
    if start is None or end is None:
        return False
    return {"hammer-on": end > start, "pull-off": end < start}.get(word, end != start)
