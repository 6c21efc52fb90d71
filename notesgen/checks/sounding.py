"""What an event should sound like in the recording."""

from __future__ import annotations

from notesgen.checks.tones import neck
from notesgen.checks.view import bend, capo, how, number, other_fret, tuning
from notesgen.lesson.model import BENDS, Event, How, Lesson, Note
from notesgen.music.pitch import midi

_NEAR = 0.6
"""Semitones by which a sound may miss its note: strings are out of tune, vibrato sways. Common practice, no
source."""
_OCTAVE = 12
_UNCLEAR: frozenset[How] = frozenset({"harmonic", "tap"})


def sounds(lesson: Lesson, event: Event) -> tuple[tuple[float, float], ...]:
    """The lowest and the highest MIDI note number of each note; () where that is not to be foretold.

    A bend sounds from its fret up to where it goes, a trill from one fret to the other.
    """
    strings, at = tuning(lesson, event.start), capo(lesson, event.start)
    if neck(lesson, event.start) is None:
        return ()
    if any(how(event, note) in _UNCLEAR or not 1 <= note.string <= len(strings) for note in event.notes):
        return ()
    ranges = [_range(event, note, midi(strings[note.string - 1]) + at) for note in event.notes]
    return tuple(one for one in ranges if one is not None)


def agrees(heard: float, ranges: tuple[tuple[float, float], ...]) -> bool:
    """Whether a MIDI note number is one of these sounds, in whatever octave.

    A listening program takes octaves for one another more often than a player does (common practice, no
    source).
    """
    return any(
        low - _NEAR <= heard + octave <= high + _NEAR
        for low, high in ranges
        for octave in (-_OCTAVE, 0, _OCTAVE)
    )


def _range(event: Event, note: Note, open_string: int) -> tuple[float, float] | None:
    fret = number(note)
    if fret is None:
        return None
    first = float(open_string + fret)
    word, amount, other = how(event, note), bend(event, note), other_fret(event, note)
    last = first + (amount or 0) if word in BENDS or word == "release" else first
    if other is not None:
        last = float(open_string + other)
    return min(first, last), max(first, last)
