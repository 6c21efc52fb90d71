from __future__ import annotations

import pytest

from notesgen.music.scale import MODES, is_mode, pitch_classes


@pytest.mark.parametrize(
    ("tonic", "mode", "expected"),
    [
        ("C", "major", {0, 2, 4, 5, 7, 9, 11}),
        ("B", "minor", {11, 1, 2, 4, 6, 7, 9}),
        ("A", "blues", {9, 0, 2, 3, 4, 7}),
        ("A", "minor pentatonic", {9, 0, 2, 4, 7}),
        ("Eb", "lydian", {3, 5, 7, 9, 10, 0, 2}),
    ],
)
def test_pitch_classes(tonic: str, mode: str, expected: set[int]) -> None:
    assert pitch_classes(tonic, mode) == expected


@pytest.mark.parametrize("mode", MODES)
def test_each_mode_rises_from_its_tonic_within_an_octave(mode: str) -> None:
    steps = MODES[mode]
    assert steps[0] == 0
    assert list(steps) == sorted(set(steps))
    assert steps[-1] < 12
    assert is_mode(mode)


def test_modes_are_turns_of_the_major_scale() -> None:
    white = pitch_classes("C", "major")
    for tonic, mode in zip(
        "DEFGAB", ["dorian", "phrygian", "lydian", "mixolydian", "minor", "locrian"], strict=True
    ):
        assert pitch_classes(tonic, mode) == white


def test_no_mode() -> None:
    assert not is_mode("sideways")
    with pytest.raises(ValueError, match='"sideways" is no mode'):
        pitch_classes("C", "sideways")


def test_no_tonic() -> None:
    with pytest.raises(ValueError, match="no note"):
        pitch_classes("H", "major")
