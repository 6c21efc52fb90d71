"""Note numbers against the standards.

Sources: MIDI 1.0 Detailed Specification (note numbers: middle C is 60, the A above it 69); ISO 16 (that A is
440 Hz). The frequencies are those of equal temperament on it, to a hundredth of a hertz.
"""

from __future__ import annotations

import pytest

from notesgen.music.pitch import midi, name

# name, note number, frequency in Hz
NOTES = [
    ("C-1", 0, 8.18),
    ("A0", 21, 27.50),
    ("E1", 28, 41.20),
    ("E2", 40, 82.41),
    ("A2", 45, 110.00),
    ("D3", 50, 146.83),
    ("G3", 55, 196.00),
    ("B3", 59, 246.94),
    ("C4", 60, 261.63),
    ("E4", 64, 329.63),
    ("A4", 69, 440.00),
    ("A#4", 70, 466.16),
    ("C5", 72, 523.25),
    ("E6", 88, 1318.51),
    ("C8", 108, 4186.01),
    ("G9", 127, 12543.85),
]


@pytest.mark.parametrize(("pitch", "number", "hertz"), NOTES)
def test_note_numbers(pitch: str, number: int, hertz: float) -> None:
    assert midi(pitch) == number
    assert name(number) == pitch
    assert 440 * 2 ** ((midi(pitch) - 69) / 12) == pytest.approx(hertz, abs=0.006)
