"""Chord shapes: each sounds the chord that it is called by, and only holds in tunings that stand apart so."""

from __future__ import annotations

import pytest

from notesgen.music import chords
from notesgen.music.pitch import midi, pitch_class
from notesgen.music.tuning import named, standard

TONES = {"": (0, 4, 7), "m": (0, 3, 7), "7": (0, 4, 7, 10), "m7": (0, 3, 7, 10), "maj7": (0, 4, 7, 11)}


@pytest.mark.parametrize("name", sorted(chords.SHAPES))
def test_a_shape_sounds_its_chord(name: str) -> None:
    root = name[:2] if name[1:2] in ("#", "b") else name[:1]
    tones = {(pitch_class(root) + step) % 12 for step in TONES[name.removeprefix(root)]}
    places = chords.shape(name)
    sounding = {(midi(standard("guitar")[string - 1]) + fret) % 12 for string, fret in places.items()}
    third = (pitch_class(root) + TONES[name.removeprefix(root)][1]) % 12
    assert third in sounding and sounding <= tones
    assert (midi(standard("guitar")[max(places) - 1]) + places[max(places)]) % 12 == pitch_class(root)


def test_no_shape_is_known() -> None:
    assert chords.shape("H") == {}


@pytest.mark.parametrize(
    ("tuning", "holds"),
    [("standard", True), ("half step down", True), ("drop D", False), ("DADGAD", False)],
)
def test_shapes_hold_where_the_strings_stand_apart_as_usual(tuning: str, holds: bool) -> None:
    found = named(tuning, "guitar")
    assert found is not None and chords.sounds_standard(found) is holds
    assert not chords.sounds_standard(standard("bass"))
