from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.music import pitch

NAMES = [
    ("Bb3", 58),
    ("A#3", 58),
    ("B♭3", 58),
    ("E2", 40),
    ("e4", 64),
    ("b3", 59),
    ("bb3", 58),
    ("Cb4", 59),
    ("B#3", 60),
    ("F##4", 67),
    ("Ebb4", 62),
    ("F♯4", 66),
    ("C-1", 0),
    ("G9", 127),
]


@pytest.mark.parametrize(("name", "number"), NAMES)
def test_midi(name: str, number: int) -> None:
    assert pitch.midi(name) == number


@pytest.mark.parametrize(("name", "number"), [("C", 0), ("Bb", 10), ("f#", 6), ("Cb", 11), ("B#", 0)])
def test_pitch_class(name: str, number: int) -> None:
    assert pitch.pitch_class(name) == number


@pytest.mark.parametrize("name", ["", "H4", "E", "4", "E 4", "Ebbb4", "C-2", "G#9", "E44", "E²", "E4\n"])
def test_no_pitch(name: str) -> None:
    with pytest.raises(ValueError, match=r"pitch|MIDI"):
        pitch.midi(name)


@pytest.mark.parametrize("name", ["", "H", "E4", "flat", "Bbbb"])
def test_no_note(name: str) -> None:
    with pytest.raises(ValueError, match="no note"):
        pitch.pitch_class(name)


@pytest.mark.parametrize("number", [-1, 128])
def test_no_note_number(number: int) -> None:
    with pytest.raises(ValueError, match="no MIDI note number"):
        pitch.name(number)


@given(st.integers(min_value=0, max_value=127), st.booleans())
def test_names_read_back(number: int, flats: bool) -> None:
    name = pitch.name(number, flats)
    assert pitch.midi(name) == number
    assert pitch.pitch_class(name.rstrip("-0123456789")) == number % 12
