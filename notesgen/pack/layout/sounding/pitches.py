"""The pitch of a place on the neck, fretted or as a harmonic."""

from __future__ import annotations

from collections.abc import Iterator
from math import log2

from notesgen.lesson.model import Facts
from notesgen.music.pitch import HIGHEST, LOWEST, midi

OCTAVE = 12
HIGHEST_PARTIAL = 6
NEAR = 0.35
"""So far, in frets, a finger may be from the point where a string divides: 4 and 3 stand for 3.9 and 3.2."""


def open_strings(facts: Facts) -> dict[int, int]:
    """The MIDI note number of each string at the capo. A string whose tuning is no pitch is left out."""
    return dict(_open_strings(facts))


def sounding(number: int) -> int | None:
    """The number if it is a MIDI note number, else None: such a place is on no neck."""
    return number if LOWEST <= number <= HIGHEST else None


def harmonic(fret: int) -> int:
    """Semitones from the open string to the harmonic over `fret`, which counts from the nut or the capo.

    Touched where an n-th of it begins, a string sounds n times its pitch (the partials of an ideal string);
    fret f shortens it to 2 ** (-f / 12) of its length (equal temperament). Where it divides into more than
    six parts, or nowhere near, the note fretted there sounds an octave higher, as with an artificial
    harmonic (common practice, no source).
    """
    for partial in range(2, HIGHEST_PARTIAL + 1):
        if any(abs(_fret(part / partial) - fret) <= NEAR for part in range(1, partial)):
            return round(OCTAVE * log2(partial))
    return fret + OCTAVE


def _open_strings(facts: Facts) -> Iterator[tuple[int, int]]:
    for string, name in enumerate(facts.tuning, start=1):
        try:
            yield string, midi(name) + facts.capo
        except ValueError:
            continue


def _fret(share: float) -> float:
    """The fret, as a real number, at a share of the string's length from the nut."""
    return -OCTAVE * log2(1 - share)
