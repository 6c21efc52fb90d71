"""Notes whose names, read out in a row, are not those of their places.

## What it flags

Names of three notes or more behind the notes that they name ("that is B, A, G"), where all agree but one,
and a place near the one that does not agree gives its name. And names of two notes or more, where none
agrees, and all do one string further over. The names of single notes are looked at while the words are
settled.

## Why it matters

A number or a string is misspoken more often than a name, and a wrong fret may fit the key.

## Example

"15 on the G, pull off to 14, pull off to 13. That is B flat, A, G.": fret 13 of the G string is A flat, the G
is at 12.

## What to do

Pick the fret that you played, or keep the draft where the name was the slip.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from msgspec import Struct, structs

from notesgen.checks.answers import query, with_fret, with_note
from notesgen.checks.tones import neck
from notesgen.checks.view import bend, how, number, single
from notesgen.checks.wording import place_name
from notesgen.lesson.evidence import Evidence, Spelled
from notesgen.lesson.model import BENDS, Event, Flag, FlagKind, Lesson, Note, Option
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import pitch_class

KIND: FlagKind = "fret-unsure"

_LEAST = 3
"""Names in a row: of two, one that agrees proves nothing."""
_FEWEST = 2
"""... where none agrees, and the string beside has them all: that is no chance."""
_NEAR = (-1, 1, -2, 2)
"""Frets by which a number is misspoken. Common practice, no source."""


class Named(Struct, frozen=True):
    """A note and the name that was read out for it."""

    event: Event
    note: Note
    letter: str


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each row of names that disagrees with one of its notes, or with their string."""
    events = {event.id: event for event in lesson.events}
    for spelled in evidence.spelled:
        told = [events[name] for name in spelled.events if name in events]
        board = neck(lesson, spelled.start)
        if board is None or len(spelled.letters) < _FEWEST:
            continue
        if moved := _all_beside(lesson, board, spelled, told):
            yield _on_other_string(lesson, spelled, *moved)
        named = _odd_one(board, spelled, told) if len(spelled.letters) >= _LEAST else None
        if named is not None and (others := _others(lesson, board, named)):
            yield _flag(lesson, named, spelled, others)


def _all_beside(
    lesson: Lesson, board: Fretboard, spelled: Spelled, told: list[Event]
) -> tuple[tuple[Event, ...], Option] | None:
    """The last notes, of which none has the name read out for it, and the string beside that gives all."""
    row = told[-len(spelled.letters) :]
    misfits = _misfits(board, spelled.letters, row)
    if misfits is None or len(misfits) < len(spelled.letters) or _is_told(board, spelled.letters, told):
        return None
    for step in (-1, 1):
        moved = [structs.replace(one.note, string=one.note.string + step) for one in misfits]
        if all(
            pitch_class(one.letter) in _pitches(board, one.event, note)
            for one, note in zip(misfits, moved, strict=True)
        ):
            changes = tuple(with_note(m.event, m.note, o) for m, o in zip(misfits, moved, strict=True))
            place = f"{place_name(lesson, row[0], moved[0])}, the {spelled.letters[0]}, and so on there"
            return tuple(row), Option(place, changes)
    return None


def _on_other_string(lesson: Lesson, spelled: Spelled, row: tuple[Event, ...], moved: Option) -> Flag:
    doubt = f'You name the notes ("{spelled.quote}"), and they lie on the string beside.'
    return query(KIND, row, doubt, place_name(lesson, row[0], row[0].notes[0]), (moved,))


def _odd_one(board: Fretboard, spelled: Spelled, told: list[Event]) -> Named | None:
    """The one note that its name does not fit; None where a row of notes fits all the names, or none does."""
    rows = (told, [next(same) for _, same in groupby(told, key=lambda event: (event.notes, event.bend))])
    misfits = [_misfits(board, spelled.letters, row[-len(spelled.letters) :]) for row in rows]
    if any(_is_told(board, spelled.letters, row) for row in rows):
        return None
    return next((found[0] for found in misfits if found is not None and len(found) == 1), None)


def _is_told(board: Fretboard, letters: tuple[str, ...], row: Sequence[Event]) -> bool:
    """Whether the letters name some stretch of the row without a fault."""
    size = len(letters)
    return any(_misfits(board, letters, row[at : at + size]) == [] for at in range(len(row) - size + 1))


def _misfits(board: Fretboard, letters: tuple[str, ...], row: Sequence[Event]) -> list[Named] | None:
    """The notes that their letters do not fit; None where there are too few, or one is not to be judged."""
    if len(row) < len(letters):
        return None
    found = []
    for letter, event in zip(letters, row, strict=True):
        pitches = {pitch for note in event.notes for pitch in _pitches(board, event, note)}
        note = single(event)
        if pitch_class(letter) in pitches:
            continue
        if note is None or how(event, note) in BENDS:
            return None
        found.append(Named(event, note, letter))
    return found


def _pitches(board: Fretboard, event: Event, note: Note) -> set[int]:
    """The pitch classes by which a note may be called: a bend by where it begins or where it goes."""
    fret = number(note)
    if fret is None or not board.has(note.string, fret):
        return set()
    pitch, amount = board.pitch(note.string, fret), bend(event, note) or 0
    return {pitch % 12, int(pitch + amount) % 12}


def _others(lesson: Lesson, board: Fretboard, named: Named) -> tuple[Option, ...]:
    """The places near by that give the name: a fret beside, or the string beside at the same fret."""
    event, note, wanted = named.event, named.note, pitch_class(named.letter)
    fret = number(note) or 0
    frets = [structs.replace(note, fret=fret + step) for step in _NEAR]
    strings = [structs.replace(note, string=note.string + step) for step in (-1, 1)]
    fitting = [
        other
        for other in (*frets, *strings)
        if other.fret != "x"
        and board.has(other.string, other.fret)
        and board.pitch(other.string, other.fret) % 12 == wanted
    ]
    return tuple(
        Option(
            f"{place_name(lesson, event, other)}, the {named.letter}",
            (
                with_fret(event, note, other.fret)
                if other.string == note.string
                else with_note(event, note, other),
            ),
        )
        for other in fitting
    )


def _flag(lesson: Lesson, named: Named, spelled: Spelled, others: tuple[Option, ...]) -> Flag:
    place = place_name(lesson, named.event, named.note)
    doubt = f'You name the notes ("{spelled.quote}"), and {place} is not the {named.letter} among them.'
    return query(KIND, (named.event,), doubt, place, others)
