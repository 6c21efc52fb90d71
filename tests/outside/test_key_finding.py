"""Keys worked out from notes, against the keys that a tune book prints, and against the published profiles.

Source: the tunes of `tests/outside/tunes/corpus.py` with the keys that their transcribers give; and music21's
key analysis by the profiles of Krumhansl and Kessler (Krumhansl 1990), an independent implementation.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest
from music21 import note, stream
from music21.analysis import discrete

from notesgen.music.key_finding import likely_keys
from notesgen.music.pitch import pitch_class
from notesgen.music.scale import MODES, pitch_classes
from tests.outside.tunes.corpus import Tune, tunes

MANY = 100
SURE = 0.8


@cache
def book() -> tuple[Tune, ...]:
    return tuple(tunes(MANY))


def best(tune: Tune) -> tuple[int, float]:
    found = likely_keys(tune.pitches, [phrase[-1] for phrase in tune.phrases])[0]
    return pitch_class(found.tonic), found.probability


def test_the_keys_of_the_book() -> None:
    right = [best(tune)[0] == pitch_class(tune.tonic) for tune in book()]
    assert sum(right) / len(right) >= 0.75


def test_the_surer_the_more_often_right() -> None:
    sure = [tune for tune in book() if best(tune)[1] >= SURE]
    assert len(sure) >= MANY / 10
    assert sum(best(tune)[0] == pitch_class(tune.tonic) for tune in sure) / len(sure) >= SURE


def test_nearly_as_good_as_the_published_profiles() -> None:
    """Those know major and minor only; lessons are in other modes too, so a little is given up here."""
    ours = sum(best(tune)[0] == pitch_class(tune.tonic) for tune in book())
    theirs = sum(profiled(tune) == pitch_class(tune.tonic) for tune in book())
    assert ours >= 0.95 * theirs


def profiled(tune: Tune) -> int:
    """The tonic that music21 finds by the published profiles."""
    line: Any = stream.Part([note.Note(pitch) for pitch in tune.pitches])
    found: int = discrete.KrumhanslKessler().getSolution(line).tonic.pitchClass
    return found


@pytest.mark.parametrize("mode", ["major", "minor", "dorian", "mixolydian", "harmonic minor"])
@pytest.mark.parametrize("tonic", ["C", "D", "Eb", "F#", "A", "B"])
def test_a_scale_up_and_down_is_in_its_key(tonic: str, mode: str) -> None:
    root = 48 + pitch_class(tonic)
    scale = [root + step for step in (*MODES[mode], 12)]
    found = likely_keys([*scale, *scale[::-1], root, scale[4], root], [root, root])[0]
    assert pitch_classes(found.tonic, found.mode) == pitch_classes(tonic, mode)
