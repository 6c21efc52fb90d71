"""Scales as semitones above the tonic.

Source: the seven modes, the minor scales and the pentatonics as music21's scale classes give them (checked in
tests/outside); melodic minor in its rising form. The two blues scales: common practice, no source.
"""

from __future__ import annotations

from types import MappingProxyType

from notesgen.music.pitch import pitch_class

MODES = MappingProxyType(
    {
        "major": (0, 2, 4, 5, 7, 9, 11),
        "minor": (0, 2, 3, 5, 7, 8, 10),
        "dorian": (0, 2, 3, 5, 7, 9, 10),
        "phrygian": (0, 1, 3, 5, 7, 8, 10),
        "lydian": (0, 2, 4, 6, 7, 9, 11),
        "mixolydian": (0, 2, 4, 5, 7, 9, 10),
        "locrian": (0, 1, 3, 5, 6, 8, 10),
        "harmonic minor": (0, 2, 3, 5, 7, 8, 11),
        "melodic minor": (0, 2, 3, 5, 7, 9, 11),
        "minor pentatonic": (0, 3, 5, 7, 10),
        "major pentatonic": (0, 2, 4, 7, 9),
        "blues": (0, 3, 5, 6, 7, 10),
        "major blues": (0, 2, 3, 4, 7, 9),
    }
)
"""Mode -> semitones above the tonic, rising. "minor" is natural minor, "blues" the minor blues scale."""


def is_mode(mode: str) -> bool:
    """Whether there is a scale of that name."""
    return mode in MODES


def pitch_classes(tonic: str, mode: str) -> frozenset[int]:
    """The pitch classes (0 = C) of a scale: ("D", "major") -> {1, 2, 4, 6, 7, 9, 11}.

    Raises ValueError if the tonic is no note or there is no such mode.
    """
    if mode not in MODES:
        raise ValueError(f'"{mode}" is no mode; the modes are {", ".join(MODES)}.')
    root = pitch_class(tonic)
    return frozenset((root + step) % 12 for step in MODES[mode])
