"""Tunes from the outside: an instrumental tune book of 1883 that music21 carries as ABC, a tune a file.

Source: music21, `corpus/r*Mammoth` (1,059 tunes). The corpus's `license.txt` says: "To the best of our
knowledge, the each piece of music in the corpus is either out of copyright in the United States or is
licensed for use, though there may be restrictions on commercial use"; the folder itself has no licence, only
the transcribers' lines. So the tunes are read from the installed package at test time; none is copied here,
and they are known by number, never by title.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import music21
from msgspec import Struct
from music21 import converter, key

FOLDER = "r*Mammoth"
MOST_NOTES = 32
FEWEST_NOTES = 12
BARS_A_PHRASE = 2
ORDER = 1883  # the seed of the order in which tunes are taken

Phrase = tuple[int, ...]


class Tune(Struct, frozen=True):
    """The beginning of a tune: MIDI note numbers by phrase, no phrase twice. `tonic` such as "Bb"."""

    number: int
    tonic: str
    mode: str
    phrases: tuple[Phrase, ...]

    @property
    def pitches(self) -> Phrase:
        """All notes in playing order."""
        return tuple(pitch for phrase in self.phrases for pitch in phrase)


def tunes(count: int) -> list[Tune]:
    """The first `count` usable tunes, always the same ones in the same order."""
    found: list[Tune] = []
    for tune in _all():
        if len(found) == count:
            break
        found.append(tune)
    return found


def _all() -> Iterator[Tune]:
    folder = Path(music21.__file__).parent / "corpus"
    files = sorted(folder.glob(f"{FOLDER}/*.abc"))
    numbered = list(enumerate(files))
    random.Random(ORDER).shuffle(numbered)
    for number, file in numbered:
        tune = _tune(number, converter.parse(file, format="abc", forceSource=True, storePickle=False))
        if tune is not None:
            yield tune


def _tune(number: int, score: Any) -> Tune | None:
    """None for what is no single line of notes in one key, or too short."""
    keys = list(score.recurse().getElementsByClass(key.KeySignature))
    named = isinstance(keys[0], key.Key) if keys else False
    if (
        not named
        or len({str(found) for found in keys}) > 1
        or list(score.recurse().getElementsByClass("Chord"))
    ):
        return None
    phrases = _phrases(score)
    if sum(len(phrase) for phrase in phrases) < FEWEST_NOTES:
        return None
    return Tune(number, keys[0].tonic.name.replace("-", "b"), keys[0].mode, phrases)


def _phrases(score: Any) -> tuple[Phrase, ...]:
    """Stretches of two bars, up to MOST_NOTES in all; one that has been heard is not told again."""
    bars = [_bar(bar) for bar in score.recurse().getElementsByClass("Measure")]
    phrases: list[Phrase] = []
    for first in range(0, len(bars), BARS_A_PHRASE):
        phrase = tuple(pitch for bar in bars[first : first + BARS_A_PHRASE] for pitch in bar)
        if sum(len(told) for told in phrases) + len(phrase) > MOST_NOTES:
            break
        if phrase and phrase not in phrases:
            phrases.append(phrase)
    return tuple(phrases)


def _bar(bar: Any) -> list[int]:
    """The notes that are struck: no rests, no grace notes, a tied note once."""
    return [
        note.pitch.midi
        for note in bar.notes
        if not note.duration.isGrace and (note.tie is None or note.tie.type == "start")
    ]
