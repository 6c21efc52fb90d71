"""Tune by tune: into words and captions, through the draft, and the notes compared."""

from __future__ import annotations

import random
from collections.abc import Iterator
from itertools import accumulate, pairwise

from msgspec import Struct

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript
from notesgen.pipeline import Given, draft
from tests.accuracy.figures import Figures, Wrong
from tests.accuracy.gold import Gold, GoldNote
from tests.accuracy.measure import measure
from tests.outside.tunes.captions import KINDS, Word, spoken
from tests.outside.tunes.corpus import Tune
from tests.outside.tunes.fingering import Place, finger, octaves
from tests.outside.tunes.voices import VOICES
from tests.outside.tunes.wording import Talk, talk

TUNING = ("E4", "B3", "G3", "D3", "A2", "E2")


class Reading(Struct, frozen=True):
    """One tune in one voice and one kind of captions: what was said, and how it was read."""

    tune: Tune
    kind: str
    talk: Talk
    words: tuple[Word, ...]
    figures: Figures

    @property
    def all_right(self) -> bool:
        """Each pitch of the tune, no more and no less."""
        return self.figures.pitch_right == self.figures.gold == self.figures.draft

    def around(self, wrong: Wrong) -> str:
        """The sentence in which a wrong note is said, with its neighbours."""
        line = max((word.line for word in self.words if word.start <= wrong.time), default=0)
        return " ".join(said.text for said in self.talk.lines[max(0, line - 1) : line + 2])


class Put(Struct, frozen=True):
    """A tune put into words: what was said, when, in which captions by kind, and the right answer."""

    talk: Talk
    words: tuple[Word, ...]
    captions: dict[str, Transcript]
    gold: Gold


def readings(tunes: list[Tune], voice: int | None = None) -> Iterator[Reading]:
    """Each tune in each kind of captions; in this voice, or the voices in turn."""
    for count, tune in enumerate(tunes):
        if octaves(tune.pitches):
            yield from read(tune, voice or 1 + count % len(VOICES))


def read(tune: Tune, voice: int) -> Iterator[Reading]:
    """One tune in one voice, in each kind of captions."""
    put = put_into_words(tune, voice)
    for kind, transcript in put.captions.items():
        figures = measure(f"{tune.number} {kind}", draft(transcript, Given()), put.gold)
        yield Reading(tune, kind, put.talk, put.words, figures)


def put_into_words(tune: Tune, voice: int) -> Put:
    """One tune as this voice tells it."""
    seed = f"{tune.number}/{voice}"
    key = f"{tune.tonic} {tune.mode}"
    said = talk(_spoken_key(key), _fingered(tune, seed), voice, seed)
    words = spoken(said)
    gold = Gold(TUNING, 0, key, _gold(said, words))
    captions = {kind: read_captions(write(words), name) for kind, (name, write) in KINDS.items()}
    return Put(said, words, captions, gold)


def _fingered(tune: Tune, seed: str) -> list[tuple[Place, ...]]:
    """The phrases on the neck, in one of the octaves that it has."""
    shift = random.Random(seed).choice(octaves(tune.pitches))
    places = finger([pitch + shift for pitch in tune.pitches])
    ends = [0, *accumulate(len(phrase) for phrase in tune.phrases)]
    return [places[start:end] for start, end in pairwise(ends)]


def _spoken_key(key: str) -> str:
    tonic, _, mode = key.partition(" ")
    return f"{tonic[0]}{tonic[1:].replace('b', ' flat').replace('#', ' sharp')} {mode}"


def _gold(said: Talk, words: tuple[Word, ...]) -> tuple[GoldNote, ...]:
    starts = {word.line: word.start for word in reversed(words)}
    return tuple(
        GoldNote(
            time=starts[number],
            string=stroke.place.string,
            fret=stroke.place.fret,
            how=stroke.how,
            bend=None,
            to=None,
            marks=frozenset(),
            together=False,
            doubt="",
        )
        for number, line in enumerate(said.lines)
        for stroke in line.strokes
        for _ in range(stroke.times)
    )
