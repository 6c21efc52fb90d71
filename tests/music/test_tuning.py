"""Tunings. Common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.music.pitch import midi
from notesgen.music.tuning import lowered, named, parse_tuning, standard

STANDARDS = [
    ("guitar", "E4 B3 G3 D3 A2 E2"),
    ("electric guitar", "E4 B3 G3 D3 A2 E2"),
    ("12-string guitar", "E4 B3 G3 D3 A2 E2"),
    ("twelve string guitar", "E4 B3 G3 D3 A2 E2"),
    ("7-string guitar", "E4 B3 G3 D3 A2 E2 B1"),
    ("bass", "G2 D2 A1 E1"),
    ("Bass guitar", "G2 D2 A1 E1"),
    ("five-string bass", "G2 D2 A1 E1 B0"),
    ("ukulele", "A4 E4 C4 G4"),
]


@pytest.mark.parametrize(("instrument", "pitches"), STANDARDS)
def test_standard(instrument: str, pitches: str) -> None:
    assert standard(instrument) == tuple(pitches.split())


# text, instrument, the strings from the thinnest to the thickest
TUNINGS = [
    ("standard", "guitar", "E4 B3 G3 D3 A2 E2"),
    ("drop D", "guitar", "E4 B3 G3 D3 A2 D2"),
    ("Drop-D tuning", "guitar", "E4 B3 G3 D3 A2 D2"),
    ("dropped D", "12-string guitar", "E4 B3 G3 D3 A2 D2"),
    ("double drop D", "guitar", "D4 B3 G3 D3 A2 D2"),
    ("drop C", "guitar", "D4 A3 F3 C3 G2 C2"),
    ("drop C sharp", "guitar", "D#4 A#3 F#3 C#3 G#2 C#2"),
    ("DADGAD", "guitar", "D4 A3 G3 D3 A2 D2"),
    ("open G", "guitar", "D4 B3 G3 D3 G2 D2"),
    ("open D", "guitar", "D4 A3 F#3 D3 A2 D2"),
    ("open E", "guitar", "E4 B3 G#3 E3 B2 E2"),
    ("open A", "guitar", "E4 C#4 A3 E3 A2 E2"),
    ("half step down", "guitar", "Eb4 Bb3 Gb3 Db3 Ab2 Eb2"),
    ("tuned down a half step", "guitar", "Eb4 Bb3 Gb3 Db3 Ab2 Eb2"),
    ("down half a step", "guitar", "Eb4 Bb3 Gb3 Db3 Ab2 Eb2"),
    ("E flat", "guitar", "Eb4 Bb3 Gb3 Db3 Ab2 Eb2"),
    ("Eb standard", "guitar", "Eb4 Bb3 Gb3 Db3 Ab2 Eb2"),
    ("a whole step down", "guitar", "D4 A3 F3 C3 G2 D2"),
    ("D standard", "guitar", "D4 A3 F3 C3 G2 D2"),
    ("a step and a half down", "guitar", "Db4 Ab3 E3 B2 Gb2 Db2"),
    ("two whole steps down", "guitar", "C4 G3 Eb3 Bb2 F2 C2"),
    ("C standard", "guitar", "C4 G3 Eb3 Bb2 F2 C2"),
    ("B standard", "guitar", "B3 Gb3 D3 A2 E2 B1"),
    ("half step down", "bass", "Gb2 Db2 Ab1 Eb1"),
    ("drop D", "bass", "G2 D2 A1 D1"),
    ("drop A", "7-string guitar", "E4 B3 G3 D3 A2 E2 A1"),
    ("low G", "ukulele", "A4 E4 C4 G3"),
    ("D A D G B E", "guitar", "E4 B3 G3 D3 A2 D2"),
    ("DADGBE", "guitar", "E4 B3 G3 D3 A2 D2"),
    ("dadgbe", "guitar", "E4 B3 G3 D3 A2 D2"),
    ("D, A, D, G, B, E", "guitar", "E4 B3 G3 D3 A2 D2"),
    ("Eb Ab Db Gb Bb Eb", "guitar", "Eb4 Bb3 Gb3 Db3 Ab2 Eb2"),
    ("EbAbDbGbBbEb", "guitar", "Eb4 Bb3 Gb3 Db3 Ab2 Eb2"),
    ("E flat, A flat, D flat, G flat, B flat, E flat", "guitar", "Eb4 Bb3 Gb3 Db3 Ab2 Eb2"),
    ("C G C G C E", "guitar", "E4 C4 G3 C3 G2 C2"),
    ("C# G# C# F# A# D#", "guitar", "D#4 A#3 F#3 C#3 G#2 C#2"),
    ("B E A D G B E", "7-string guitar", "E4 B3 G3 D3 A2 E2 B1"),
    ("gCEA", "ukulele", "A4 E4 C4 G4"),
    ("D2 A2 D3 G3 B3 E4", "guitar", "E4 B3 G3 D3 A2 D2"),
    ("D2A2D3G3B3E4", "guitar", "E4 B3 G3 D3 A2 D2"),
]


@pytest.mark.parametrize(("text", "instrument", "pitches"), TUNINGS)
def test_parse_tuning(text: str, instrument: str, pitches: str) -> None:
    assert parse_tuning(text, instrument) == tuple(pitches.split())


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "is no tuning known here"),
        ("sideways", "is no tuning known here"),
        ("D", "names 1 string"),
        ("E A D G", "names 4 strings, but the guitar has 6"),
        ("E A D G B E4", "is no tuning known here"),
        ("E2 A2 D3 G3 B3 E4 A4", "names 7 strings"),
        ("E A D G B H", "is no tuning known here"),
    ],
)
def test_no_tuning(text: str, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        parse_tuning(text)


def test_names_alone() -> None:
    assert named("D A D G B E", "guitar") is None
    assert named("D", "guitar") is None
    assert named("E flat", "ukulele") is None


def test_no_instrument() -> None:
    with pytest.raises(ValueError, match='"kazoo" is no instrument known here'):
        standard("kazoo")


@given(st.sampled_from([name for name, _ in STANDARDS]), st.integers(min_value=0, max_value=6))
def test_lowered_and_read_back(instrument: str, semitones: int) -> None:
    usual = standard(instrument)
    low = lowered(usual, semitones)
    assert [midi(name) for name in low] == [
        midi(name) - semitones for name in usual if midi(name) >= semitones
    ]
    assert parse_tuning(" ".join(reversed(low)), instrument) == low


@given(st.integers(min_value=0, max_value=5))
def test_letters_find_the_octave(semitones: int) -> None:
    low = lowered(standard("guitar"), semitones)
    assert parse_tuning(" ".join(name[:-1] for name in reversed(low))) == low
