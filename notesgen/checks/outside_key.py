"""A note outside the declared key that nothing announced.

## What it flags

A note that does not belong to the key in force, unless you called it a passing note, a blue note,
"outside" or the like. Notes of a chromatic run, with a semitone to either side on the string, are
remarked on, not asked about. In minor pentatonic and blues keys the whole natural minor scale and the
blue notes (major third, flat fifth, major sixth) count as inside, in major pentatonic the major scale
(common practice, no source). With a capo the key is by shape, as you say it. Bends are judged by where
they arrive: see `bend-misses`. If more than a quarter of the notes lie outside, only one question is
asked: is this the key?

## Why it matters

A fret that is one off mostly leaves the key, so this is how a misspoken or misheard fret is found.

## Example

"This is in A minor. Play 4 on the D string.": that is F#, one fret above F.

## What to do

Pick the fret that you played. If the note is meant, keep the draft; calling it a passing note in the
lesson spares the question.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import structs

from notesgen.checks.answers import query, remark
from notesgen.checks.fit import Fit, doubtful_keys, fits
from notesgen.checks.tones import Tones
from notesgen.checks.view import other_fret
from notesgen.checks.wording import fret_name, listed, place_name, string_name
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Change, Event, Flag, FlagKind, Key, Lesson, Note, Option

KIND: FlagKind = "outside-key"

# The nearest frets in a key are never further off. No scale here has a wider gap than three semitones.
_NEAREST = (-1, 1, -2, 2)


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One flag for each such event, struck again at once or not; one only for a key that does not fit."""
    found = fits(lesson, evidence)
    doubtful = doubtful_keys(found)
    for key in sorted(doubtful, key=str):
        yield _wrong_key(key, [fit for fit in found if fit.tones.key == key])
    for run in _runs(fit for fit in found if fit.outside and fit.tones.key not in doubtful):
        yield _passing(lesson, run) if run[0].passing else _outside(lesson, run)


def _runs(found: Iterator[Fit]) -> list[list[Fit]]:
    """Equal events in a row as one: a note struck three times is one question."""
    runs: list[list[Fit]] = []
    for fit in found:
        last = runs[-1][-1] if runs else None
        if last and last.place.index + 1 == fit.place.index and _same(last, fit):
            runs[-1].append(fit)
        else:
            runs.append([fit])
    return runs


def _same(one: Fit, other: Fit) -> bool:
    first, second = one.place.event, other.place.event
    return (first.notes, first.phrase, one.outside) == (second.notes, second.phrase, other.outside)


def _wrong_key(key: Key, found: list[Fit]) -> Flag:
    outside = [fit for fit in found if fit.outside]
    notes, total = sum(len(fit.outside) for fit in outside), sum(fit.judged for fit in found)
    doubt = f"Outside {key} lie {notes} of its {total} notes: it may not be the key that is played."
    return remark(KIND, (outside[0].place.event,), f"{doubt} The draft keeps the notes, and {key}.")


def _passing(lesson: Lesson, run: list[Fit]) -> Flag:
    event, tones = run[0].place.event, run[0].tones
    names = _names(lesson, event, run[0].outside, tones)
    return remark(KIND, _events(run), f"{names} is outside {tones.key}: a step of a chromatic run.")


def _outside(lesson: Lesson, run: list[Fit]) -> Flag:
    event, tones, outside = run[0].place.event, run[0].tones, run[0].outside
    verb = "is" if len(outside) == 1 else "are"
    names = _names(lesson, event, outside, tones)
    doubt = f"{names} {verb} not in {tones.key}, and nothing announces an outside note."
    return query(KIND, _events(run), doubt, _kept(event, outside), _others(run))


def _kept(event: Event, outside: tuple[Note, ...]) -> str:
    fret = outside[0].fret
    if len(outside) > 1 or fret == "x":
        return f"{_all(len(outside))} notes"
    return fret_name(fret) if other_fret(event, outside[0]) is None else "the trill"


def _names(lesson: Lesson, event: Event, notes: tuple[Note, ...], tones: Tones) -> str:
    if len(notes) > 1 and len(_frets(notes)) == 1 and all(other_fret(event, note) is None for note in notes):
        strings = (string_name(lesson, event.start, note.string) for note in notes)
        placed = (f"of {name} ({_spelled(note, tones)})" for name, note in zip(strings, notes, strict=True))
        return f"{fret_name(*_frets(notes))} {listed(tuple(placed), 'and')}"
    names = tuple(
        f"{place_name(lesson, event, note)} ({_spelled(note, tones)})"
        if other_fret(event, note) is None
        else f"the trill at {place_name(lesson, event, note)}"
        for note in notes
    )
    return listed(names, "and")


def _spelled(note: Note, tones: Tones) -> str:
    pitch = None if note.fret == "x" else tones.pitch(note.string, note.fret)
    return "" if pitch is None else tones.spell(pitch)


def _others(run: list[Fit]) -> tuple[Option, ...]:
    """All outside notes as many frets lower or higher as brings them into the key, nearest first."""
    others = []
    for step in _NEAREST:
        moved = [(note, _moved(note, step)) for note in run[0].outside]
        if all(_in_key(run[0], note) for _, note in moved):
            changes = tuple(_change(fit.place.event, moved) for fit in run)
            others.append(Option(_label(moved, step, run[0].tones), changes))
    return tuple(others[:2])


def _moved(note: Note, step: int) -> Note:
    return note if note.fret == "x" else structs.replace(note, fret=note.fret + step)


def _in_key(fit: Fit, note: Note) -> bool:
    """Whether a note, and where it trills to, lies in the key."""
    target = other_fret(fit.place.event, note)
    frets = [fret for fret in (note.fret, target) if fret is not None and fret != "x"]
    return bool(frets) and all(fit.tones.has(note.string, fret) for fret in frets)


def _label(moved: list[tuple[Note, Note]], step: int, tones: Tones) -> str:
    if len(moved) == 1 and moved[0][1].fret != "x":
        note = moved[0][1]
        return f"{fret_name(moved[0][1].fret)} ({_spelled(note, tones)})"
    them, frets = _all(len(moved)), _frets(tuple(note for _, note in moved))
    if len(frets) == 1:
        return f"{fret_name(*frets)} on {them} strings"
    distance = "one fret" if abs(step) == 1 else "two frets"
    return f"{them} notes {distance} {'lower' if step < 0 else 'higher'}"


def _frets(notes: tuple[Note, ...]) -> set[int]:
    return {note.fret for note in notes if note.fret != "x"}


def _all(number: int) -> str:
    """ "both", "all 3"."""
    return "both" if number == 2 else f"all {number}"


def _change(event: Event, moved: list[tuple[Note, Note]]) -> Change:
    # By value: the events of a run are equal, and a note occurs once in an event.
    replaced = dict(moved)
    return Change(event.id, notes=tuple(replaced.get(note, note) for note in event.notes))


def _events(run: list[Fit]) -> tuple[Event, ...]:
    return tuple(fit.place.event for fit in run)
