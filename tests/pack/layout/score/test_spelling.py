"""Key signatures and spelling against music21, an independent library of music theory."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import key, pitch

from notesgen.lesson.model import Key
from notesgen.music.scale import MODES
from notesgen.pack.layout.score.spelling import altered, signature, spell

TONICS = ["C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B"]
THEIRS = ["major", "minor", "dorian", "phrygian", "lydian", "mixolydian", "locrian"]


@pytest.mark.parametrize("mode", THEIRS)
@pytest.mark.parametrize("tonic", TONICS)
def test_signature_and_scale_are_theirs(tonic: str, mode: str) -> None:
    found = key.Key(tonic.replace("b", "-"), mode)
    ours = signature(Key(tonic, mode))
    if abs(found.sharps) > 7:
        assert abs(ours.fifths) <= 7 and (ours.fifths - found.sharps) % 12 == 0
        return
    assert ours.fifths == found.sharps
    for one in found.getScale().getPitches("C4", "C6"):
        spelled = spell(one.midi, ours)
        assert (spelled.step, spelled.alter, spelled.octave) == (one.step, one.alter, one.octave)
        assert altered(spelled.step, ours.fifths) == spelled.alter


@given(st.integers(12, 127), st.sampled_from(TONICS), st.sampled_from(sorted(MODES)))
def test_a_spelled_pitch_sounds_the_same(number: int, tonic: str, mode: str) -> None:
    spelled = spell(number, signature(Key(tonic, mode)))
    written = pitch.Pitch(step=spelled.step, octave=spelled.octave)
    written.accidental = pitch.Accidental(spelled.alter)
    assert written.midi == number


@pytest.mark.parametrize(
    ("tonic", "mode", "number", "written"),
    [
        ("A", "harmonic minor", 68, ("G", 1)),
        ("E", "blues", 70, ("B", -1)),
        ("C", "major", 61, ("C", 1)),
        ("C", "major", 63, ("E", -1)),
        ("Bb", "major", 59, ("B", 0)),
        ("D", "minor", 61, ("C", 1)),
    ],
)
def test_notes_outside_the_scale(tonic: str, mode: str, number: int, written: tuple[str, int]) -> None:
    """Common practice, no source."""
    spelled = spell(number, signature(Key(tonic, mode)))
    assert (spelled.step, spelled.alter) == written


def test_without_a_key_or_with_none_that_is_known() -> None:
    assert signature(None).fifths == signature(Key("H", "major")).fifths == 0
    assert spell(63, signature(None)).step == "E"
    assert spell(66, signature(None, flats=True)).step == "G"
