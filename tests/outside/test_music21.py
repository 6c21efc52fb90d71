"""Pitches, scales and fretboards against music21, an independent library of music theory."""

from __future__ import annotations

from typing import Any

import pytest
from music21 import interval, key, pitch, scale, tablature

from notesgen.checks.tones import tones
from notesgen.lesson.model import Facts, Key, Lesson, Source
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import midi, name, pitch_class
from notesgen.music.scale import pitch_classes
from notesgen.music.tuning import standard

TONICS = ["C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B"]
SCALES: dict[str, Any] = {
    "major": scale.MajorScale,
    "minor": scale.MinorScale,
    "dorian": scale.DorianScale,
    "phrygian": scale.PhrygianScale,
    "lydian": scale.LydianScale,
    "mixolydian": scale.MixolydianScale,
    "locrian": scale.LocrianScale,
    "harmonic minor": scale.HarmonicMinorScale,
    "melodic minor": scale.MelodicMinorScale,
}
# Degrees of the scales above that make the pentatonic ones.
PENTATONICS = {"minor pentatonic": ("minor", (1, 3, 4, 5, 7)), "major pentatonic": ("major", (1, 2, 3, 5, 6))}


def theirs(written: str) -> pitch.Pitch:
    """Their pitch of that name; music21 writes a flat as "-", so the octave is set apart from the name."""
    note = written.rstrip("-0123456789")
    found = pitch.Pitch(note[0] + note[1:].replace("b", "-"))
    if note != written:
        found.octave = int(written[len(note) :])
    return found


def rising(tonic: str, mode: str) -> list[pitch.Pitch]:
    found = SCALES[mode](theirs(tonic))
    return list(found.getPitches(direction=scale.Direction.ASCENDING))


@pytest.mark.parametrize("octave", range(9))
@pytest.mark.parametrize("tonic", [*TONICS, "B#", "Cb", "E#", "Fb"])
def test_pitches(tonic: str, octave: int) -> None:
    written = f"{tonic}{octave}"
    assert midi(written) == theirs(written).midi == theirs(written).ps
    assert pitch_class(tonic) == theirs(tonic).pitchClass


def test_names() -> None:
    for number in range(128):
        assert theirs(name(number)).midi == number
        assert theirs(name(number, flats=True)).midi == number


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize("mode", SCALES)
def test_scales(tonic: str, mode: str) -> None:
    assert pitch_classes(tonic, mode) == {found.pitchClass for found in rising(tonic, mode)}


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize("mode", PENTATONICS)
def test_pentatonics(tonic: str, mode: str) -> None:
    base, degrees = PENTATONICS[mode]
    pitches = rising(tonic, base)
    assert pitch_classes(tonic, mode) == {pitches[degree - 1].pitchClass for degree in degrees}


@pytest.mark.parametrize("mode", ["major", "minor", "dorian", "mixolydian"])
@pytest.mark.parametrize("tonic", ["C", "Db", "D", "Eb", "E", "F", "G", "Ab", "A", "Bb", "B"])
def test_keys_spell_their_scale(tonic: str, mode: str) -> None:
    """Up to six sharps or flats: beyond, guitarists write the other name of the key."""
    if abs(key.Key(tonic.replace("b", "-"), mode).sharps) > 5:
        return
    facts = Facts("", "guitar", standard("guitar"), key=Key(tonic, mode))
    found = tones(Lesson(source=Source("any.vtt"), facts=facts), 0.0)
    assert found is not None
    assert [found.spell(one.midi) for one in rising(tonic, mode)] == [
        one.name.replace("-", "b") for one in rising(tonic, mode)
    ]


@pytest.mark.parametrize("low", ["E2", "A2", "Bb3", "F#4"])
@pytest.mark.parametrize("high", ["E4", "Db5", "C3", "G#2"])
def test_intervals(low: str, high: str) -> None:
    between = interval.notesToChromatic(theirs(low), theirs(high))
    assert midi(high) - midi(low) == between.semitones


BOARDS: dict[str, Any] = {
    "guitar": tablature.GuitarFretBoard,
    "bass": tablature.BassGuitarFretBoard,
    "ukulele": tablature.UkeleleFretBoard,
}


@pytest.mark.parametrize("instrument", BOARDS)
def test_standard_tunings(instrument: str) -> None:
    assert [midi(name) for name in reversed(standard(instrument))] == [
        string.midi for string in BOARDS[instrument]().tuning
    ]


@pytest.mark.parametrize("instrument", BOARDS)
def test_pitches_of_fretboards(instrument: str) -> None:
    board = Fretboard(standard(instrument))
    for fret in range(25):
        notes = [tablature.FretNote(string, fret) for string in range(1, board.strings + 1)]
        fretted = BOARDS[instrument](fretNotes=notes).getPitches()
        ours = [board.pitch(string, fret) for string in range(board.strings, 0, -1)]
        assert ours == [found.midi for found in fretted if found is not None]
        assert all((string, fret) in board.places(board.pitch(string, fret)) for string in (1, board.strings))
