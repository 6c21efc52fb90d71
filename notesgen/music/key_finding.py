"""Which key notes are in, where nobody said it, and how sure that is.

Every scale tone is likelier than any other tone, the tonic and the fifth above all, and a phrase likes to end
on the tonic. The idea is that of tone profiles (Krumhansl 1990, "Cognitive Foundations of Musical Pitch",
where they are measured with listeners); the weights here are rounder. `tests/outside/test_key_finding.py`
compares the outcome with an independent implementation of the published profiles.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import exp, log

from msgspec import Struct

from notesgen.music.scale import MODES

_NAMES = ("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")
_MINOR_NAMES = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B")
# Modes that lessons are in, each with its share where nothing else is known. Common practice, no source.
_MODES = {"major": 0.35, "minor": 0.35, "mixolydian": 0.1, "dorian": 0.1, "harmonic minor": 0.1}
_DEGREES = (2.0, 0.9, 1.3, 0.9, 1.6, 0.8, 0.9)
_ENDINGS = (5.0, 0.5, 1.5, 0.5, 2.0, 0.3, 0.4)
_OUTSIDE = 0.06
"""The share of notes that lie outside their key, passing notes and blue notes."""
_ALIKE = 2.0
"""Notes repeat one another in riffs and loops: so many count as one."""


class Likely(Struct, frozen=True):
    """A key, how likely it is (0 to 1), and how many of the notes lie in it."""

    tonic: str
    mode: str
    probability: float
    inside: int


def likely_keys(notes: Iterable[int], endings: Iterable[int] = ()) -> tuple[Likely, ...]:
    """The keys that notes (MIDI note numbers) may be in, the likeliest first; () where there are none.

    `endings` are the last notes of phrases, in `notes` as well.
    """
    classes, last = [note % 12 for note in notes], [note % 12 for note in endings]
    if not classes:
        return ()
    weights = {
        (tonic, mode): _log_weight(tonic, mode, classes, last) for tonic in range(12) for mode in _MODES
    }
    highest = max(weights.values())
    total = sum(exp(weight - highest) for weight in weights.values())
    found = [
        Likely(_name(tonic, mode), mode, exp(weight - highest) / total, _inside(tonic, mode, classes))
        for (tonic, mode), weight in weights.items()
    ]
    return tuple(sorted(found, key=lambda one: (-one.probability, one.tonic, one.mode)))


def _log_weight(tonic: int, mode: str, classes: list[int], last: list[int]) -> float:
    told = _logs(tonic, mode, classes, _DEGREES)
    ended = _logs(tonic, mode, last, _ENDINGS)
    return log(_MODES[mode]) + (sum(told) + sum(ended)) / _ALIKE


def _logs(tonic: int, mode: str, classes: list[int], weights: tuple[float, ...]) -> Iterator[float]:
    """How likely each note is in the key, as logarithms."""
    degree = {(tonic + step) % 12: weight for step, weight in zip(MODES[mode], weights, strict=True)}
    inside, outside = (1 - _OUTSIDE) / sum(weights), _OUTSIDE / (12 - len(weights))
    return (log(degree[note] * inside if note in degree else outside) for note in classes)


def _inside(tonic: int, mode: str, classes: list[int]) -> int:
    scale = {(tonic + step) % 12 for step in MODES[mode]}
    return sum(note in scale for note in classes)


def _name(tonic: int, mode: str) -> str:
    names = _NAMES if MODES[mode][2] == MODES["major"][2] else _MINOR_NAMES
    return names[tonic]
