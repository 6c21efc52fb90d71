"""Pitches of places, and of harmonics."""

from __future__ import annotations

import pytest
from music21.pitch import Pitch

from notesgen.lesson.model import Facts
from notesgen.pack.layout.sounding.pitches import harmonic, open_strings


@pytest.mark.parametrize(
    ("fret", "partial"),
    # Where a string is touched for its partials, from its length in equal temperament; common practice.
    [(12, 2), (7, 3), (19, 3), (5, 4), (24, 4), (4, 5), (9, 5), (16, 5), (3, 6)],
)
def test_natural_harmonics_sound_a_partial_of_the_open_string(fret: int, partial: int) -> None:
    # The n-th partial has n times the frequency; music21 makes the nearest pitch of that frequency.
    opened = Pitch("E2")
    sounding = Pitch()
    sounding.frequency = opened.frequency * partial
    assert opened.midi + harmonic(fret) == round(sounding.ps)


@pytest.mark.parametrize("fret", [0, 1, 2, 6, 8, 10, 11, 13, 14, 15, 17])
def test_elsewhere_a_harmonic_is_the_octave_of_the_fretted_note(fret: int) -> None:
    assert harmonic(fret) == fret + 12


def test_open_strings_lie_at_the_capo_and_what_is_no_pitch_is_left_out() -> None:
    facts = Facts("A lesson", "guitar", ("E4", "?", "G3"), capo=2)
    assert open_strings(facts) == {1: Pitch("F#4").midi, 3: Pitch("A3").midi}
