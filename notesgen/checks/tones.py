"""Pitches as the teacher names them, and the key in force.

Keys are named by shape: with a capo, and in a lowered tuning whose strings keep their usual letters, a
note is what the same fret would sound without them.
"""

from __future__ import annotations

from functools import lru_cache

from msgspec import Struct

from notesgen.checks.view import in_force, tuning
from notesgen.lesson.model import Key, Lesson
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import name, pitch_class
from notesgen.music.scale import pitch_classes
from notesgen.music.tuning import as_named, standard

# What players use freely besides the named scale, in semitones above the tonic: the rest of the scale that a
# pentatonic is part of, and the blue notes. Common practice, no source.
_MINOR_WITH_BLUE_NOTES = frozenset({0, 2, 3, 5, 7, 8, 10} | {4, 6, 9})
_MAJOR = frozenset({0, 2, 4, 5, 7, 9, 11})
_FREE = {
    "minor pentatonic": _MINOR_WITH_BLUE_NOTES,
    "blues": _MINOR_WITH_BLUE_NOTES,
    "major pentatonic": _MAJOR,
    "major blues": _MAJOR | {3},
}

# From the tonic up to that of the major key with the same notes, for spelling: A minor + 3 is C major.
_TO_MAJOR = {
    "minor": 3,
    "harmonic minor": 3,
    "melodic minor": 3,
    "minor pentatonic": 3,
    "blues": 3,
    "dorian": 10,
    "phrygian": 8,
    "lydian": 7,
    "mixolydian": 5,
    "locrian": 1,
}
# The line of fifths, C = 0, G = 1, F = -1: where the flats stand on it, and how far down it a key's own
# spelling goes below its parent major key, chromatic notes included (Bb and Eb in C major, but G#).
# Common practice, no source.
_FLATS = {10: -2, 3: -3, 8: -4, 1: -5, 6: -6}
_FLATMOST = 3


class Tones(Struct, frozen=True):
    """A neck by shape, and the key in which it is played. Pitches are MIDI note numbers by shape."""

    neck: Fretboard
    key: Key
    accepted: frozenset[int]

    def pitch(self, string: int, fret: int) -> int | None:
        """The pitch of a place, None off the neck."""
        return self.neck.pitch(string, fret) if self.neck.has(string, fret) else None

    def fits(self, pitch: int) -> bool:
        """Whether a pitch belongs to the key, or is used in it freely."""
        return pitch % 12 in self.accepted

    def has(self, string: int, fret: int) -> bool:
        """Whether a place lies on the neck and in the key."""
        pitch = self.pitch(string, fret)
        return pitch is not None and self.fits(pitch)

    def spell(self, pitch: int) -> str:
        """The letter of a pitch in this key: "Bb" in F major, "A#" in B minor."""
        flats = _FLATS.get(pitch % 12, 0) >= _fifths(self.key) - _FLATMOST
        return name(pitch % 12 + 60, flats).rstrip("0123456789")


def tones(lesson: Lesson, at: float) -> Tones | None:
    """Neck and key at a time; None if no key was declared, or if key or tuning is none known here."""
    key, board = _key(lesson, at), neck(lesson, at)
    accepted = _accepted(key) if key else frozenset()
    return Tones(board, key, accepted) if key and board and accepted else None


def neck(lesson: Lesson, at: float) -> Fretboard | None:
    """The neck at a time, by shape; None if the tuning is none."""
    naming = any(change.fact == "naming" and change.value == "standard" for change in lesson.facts.changes)
    return _board(tuning(lesson, at), lesson.facts.instrument if naming else None)


def _key(lesson: Lesson, at: float) -> Key | None:
    changed = in_force(lesson, "key", at)
    return changed if isinstance(changed, Key) else lesson.facts.key


def _fifths(key: Key) -> int:
    """Where the major key with the same notes stands on the line of fifths: below C if the tonic is flat."""
    parent = (pitch_class(key.tonic) + _TO_MAJOR.get(key.mode, 0)) % 12
    fifths = 7 * parent % 12
    highest = 0 if "b" in key.tonic else 11 if "#" in key.tonic else 6
    return fifths - 12 if fifths > highest else fifths


def _accepted(key: Key) -> frozenset[int]:
    try:
        scale, tonic = pitch_classes(key.tonic, key.mode), pitch_class(key.tonic)
    except ValueError:
        return frozenset()
    return scale | {(tonic + step) % 12 for step in _FREE.get(key.mode, ())}


# A board makes its tables once, and every event asks for it.
@lru_cache(maxsize=32)
def _board(strings: tuple[str, ...], usual_letters_of: str | None) -> Fretboard | None:
    try:
        if usual_letters_of is not None:
            strings = as_named(strings, standard(usual_letters_of))
        return Fretboard(strings)
    except (ValueError, IndexError):
        return None
