"""Key signatures, and pitches spelled as an engraver spells them in a key.

Both live on the line of fifths: ... Bb -2, F -1, C 0, G 1, D 2 ... Twelve neighbours on it name the twelve
pitch classes once each.
"""

from __future__ import annotations

from types import MappingProxyType

from msgspec import Struct

from notesgen.lesson.model import Key
from notesgen.music.pitch import pitch_class

# How many places the signature's major key lies above the tonic's own, on the line of fifths.
# Source: the modes as the white keys give them (D dorian has C major's signature).
_SIGNATURES = MappingProxyType(
    {
        "lydian": 1,
        "mixolydian": -1,
        "dorian": -2,
        "minor": -3,
        "harmonic minor": -3,
        "melodic minor": -3,
        "minor pentatonic": -3,
        "blues": -3,
        "phrygian": -4,
        "locrian": -5,
    }
)
_MODES = ("major", "minor", "dorian", "phrygian", "lydian", "mixolydian", "locrian")
_LETTERS = "FCGDAEB"
_NATURAL = MappingProxyType({letter: pitch_class(letter) for letter in _LETTERS})
_MOST = 7  # sharps or flats of a signature
# How far below the signature the spellings begin: Eb, Bb, F#, C# and G# in C major and in A minor.
# Common practice, no source.
_BELOW = 3
_FLAT_BELOW = 6  # without a key, where the strings are named with flats: from Gb to B


class Signature(Struct, frozen=True):
    """`fifths`: sharps, or flats below 0. `flatmost`: where the twelve spellings begin on the line."""

    fifths: int
    mode: str
    flatmost: int


class Spelled(Struct, frozen=True):
    """A pitch as it is written: "B", -1, 3 is Bb3."""

    step: str
    alter: int
    octave: int


def signature(key: Key | None, flats: bool = False) -> Signature:
    """The signature of a key. Without a key that is known: no sharps or flats, and spelling by `flats`."""
    try:
        tonic = _place(key.tonic) if key else None
    except ValueError:
        tonic = None
    if key is None or tonic is None:
        return Signature(0, "none", -(_FLAT_BELOW if flats else _BELOW))
    fifths = tonic + _SIGNATURES.get(key.mode, 0)
    turn = 12 * ((fifths < -_MOST) - (fifths > _MOST))  # G# major is written as Ab major
    kept = "minor" if _SIGNATURES.get(key.mode) == _SIGNATURES["minor"] else "major"
    mode = key.mode if key.mode in _MODES else kept
    return Signature(fifths + turn, mode, fifths + turn - _BELOW)


def spell(midi: int, signature: Signature) -> Spelled:
    """A MIDI note number as it is written in the key."""
    place = signature.flatmost + (7 * midi - signature.flatmost) % 12
    step, alter = _LETTERS[(place + 1) % 7], (place + 1) // 7
    return Spelled(step, alter, (midi - alter) // 12 - 1)


def altered(step: str, fifths: int) -> int:
    """What the signature does to a letter: 1 sharp, -1 flat, 0 nothing."""
    return (fifths - 1 - _LETTERS.index(step)) // 7 + 1


def _place(note: str) -> int:
    """Where a note stands on the line of fifths. Raises ValueError if it is none."""
    letter = note[:1].upper()
    sharps = pitch_class(note) - _NATURAL.get(letter, 0)
    return _LETTERS.index(letter) - 1 + 7 * ((sharps + 6) % 12 - 6)
