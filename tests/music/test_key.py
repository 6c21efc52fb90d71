from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.music.key import parse_key
from notesgen.music.scale import MODES

KEYS = [
    ("B minor", ("B", "minor")),
    ("Bb major", ("Bb", "major")),
    ("F sharp minor", ("F#", "minor")),
    ("A blues", ("A", "blues")),
    ("E minor pentatonic", ("E", "minor pentatonic")),
    ("D mixolydian", ("D", "mixolydian")),
    ("G", ("G", "major")),
    ("Am", ("A", "minor")),
    ("F#m", ("F#", "minor")),
    ("Gmaj", ("G", "major")),
    ("b flat", ("Bb", "major")),
    ("B-flat minor", ("Bb", "minor")),
    ("the key of G", ("G", "major")),
    ("B natural minor", ("B", "minor")),
    ("a harmonic minor scale", ("A", "harmonic minor")),
    ("D♭ lydian", ("Db", "lydian")),
    ("A minor blues", ("A", "blues")),
    ("E aeolian", ("E", "minor")),
]


@pytest.mark.parametrize(("text", "key"), KEYS)
def test_keys(text: str, key: tuple[str, str]) -> None:
    assert parse_key(text) == key


@pytest.mark.parametrize(
    "text", ["", "D7", "Gm7", "Bminor", "be", "hello", "H minor", "5", "E sideways", "A B"]
)
def test_no_key(text: str) -> None:
    assert parse_key(text) is None


@given(st.sampled_from("ABCDEFG"), st.sampled_from(["", "#", "b"]), st.sampled_from(sorted(MODES)))
def test_each_key_reads_back(letter: str, accidental: str, mode: str) -> None:
    assert parse_key(f"{letter}{accidental} {mode}") == (letter + accidental, mode)


@given(st.text(max_size=12))
def test_any_text_is_a_key_or_none(text: str) -> None:
    key = parse_key(text)
    assert key is None or key[1] in MODES
