"""Pitch names and MIDI note numbers.

Scientific pitch notation, C4 = middle C = 60 and A4 = 69, as in the MIDI 1.0 Detailed Specification (note
numbers).
"""

from __future__ import annotations

import re

LOWEST, HIGHEST = 0, 127
"""The range of MIDI note numbers: C-1 to G9."""

_LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
_ACCIDENTALS = {"": 0, "#": 1, "♯": 1, "##": 2, "b": -1, "♭": -1, "bb": -2}
_SHARPS = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")
_FLATS = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
_NAME = re.compile(r"([A-Ga-g])(##|#|♯|bb|b|♭)?")
_PITCH = re.compile(_NAME.pattern + r"(-?\d)", re.ASCII)


def midi(name: str) -> int:
    """The MIDI note number of a pitch: "Bb3" -> 58. Raises ValueError if it is no pitch from 0 to 127."""
    match = _PITCH.fullmatch(name)
    if match is None:
        raise ValueError(f'"{name}" is no pitch: write a note and its octave, such as "Bb3".')
    number = 12 * (int(match[3]) + 1) + _steps(match[1], match[2])
    if not LOWEST <= number <= HIGHEST:
        raise ValueError(f'The pitch "{name}" lies outside the MIDI range, C-1 to G9.')
    return number


def pitch_class(name: str) -> int:
    """The pitch class of a note, 0 = C to 11 = B: "Bb" -> 10. Raises ValueError if it is no note."""
    match = _NAME.fullmatch(name)
    if match is None:
        raise ValueError(f'"{name}" is no note: write a letter from A to G, with # or b after it.')
    return _steps(match[1], match[2]) % 12


def name(midi: int, flats: bool = False) -> str:
    """The name of a MIDI note number, with sharps unless `flats`: 58 -> "A#3".

    Raises ValueError outside 0 to 127.
    """
    if not LOWEST <= midi <= HIGHEST:
        raise ValueError(f"{midi} is no MIDI note number, 0 to 127.")
    octave, step = divmod(midi, 12)
    return f"{(_FLATS if flats else _SHARPS)[step]}{octave - 1}"


def _steps(letter: str, accidental: str | None) -> int:
    return _LETTERS[letter.upper()] + _ACCIDENTALS[accidental or ""]
