"""Tunes that nobody here wrote come back from their captions; how well is kept in `floors.toml`."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from notesgen.captions.read import read_captions
from tests.outside.tunes.captions import KINDS, spoken
from tests.outside.tunes.check import Reading, readings
from tests.outside.tunes.corpus import MOST_NOTES, Tune, tunes
from tests.outside.tunes.fingering import HIGHEST, SPAN, finger, octaves
from tests.outside.tunes.floors import TUNES, broken, floor_of, groups, read_floors
from tests.outside.tunes.voices import VOICES
from tests.outside.tunes.wording import talk

FLOORS = read_floors()


@pytest.fixture(scope="module")
def some() -> list[Tune]:
    return tunes(TUNES)


@pytest.fixture(scope="module")
def by_group(some: list[Tune]) -> dict[str, list[Reading]]:
    return groups(list(readings(some)))


@pytest.mark.parametrize("group", FLOORS)
def test_no_figure_falls(by_group: dict[str, list[Reading]], group: str) -> None:
    assert broken(floor_of(by_group[group]), FLOORS[group]) == []


def test_every_group_has_a_floor(by_group: dict[str, list[Reading]]) -> None:
    assert list(by_group) == list(FLOORS)


def test_tunes_are_single_lines_of_some_length(some: list[Tune]) -> None:
    assert len(some) == TUNES == len({tune.number for tune in some})
    assert all(
        len(tune.pitches) <= MOST_NOTES and len(set(tune.phrases)) == len(tune.phrases) for tune in some
    )


def test_fingerings_sound_the_tune_under_one_hand(some: list[Tune]) -> None:
    for tune in some:
        for shift in octaves(tune.pitches):
            places = finger([pitch + shift for pitch in tune.pitches])
            assert [place.pitch - shift for place in places] == list(tune.pitches)
            assert all(0 <= place.fret <= HIGHEST for place in places)
            assert all(place.fret == 0 or 0 <= place.fret - place.position <= SPAN for place in places)


@pytest.mark.parametrize("voice", VOICES)
def test_a_talk_tells_every_note_once_and_always_alike(some: list[Tune], voice: int) -> None:
    shift = octaves(some[0].pitches)[0]
    phrases = [finger([pitch + shift for pitch in phrase]) for phrase in some[0].phrases]
    said = talk("D major", phrases, voice, "a seed")
    told = [stroke.place.pitch - shift for stroke in said.strokes for _ in range(stroke.times)]
    assert told == list(some[0].pitches)
    assert said == talk("D major", phrases, voice, "a seed")


@pytest.mark.parametrize("kind", KINDS)
def test_captions_hold_every_word_near_its_time(some: list[Tune], kind: str) -> None:
    shift = octaves(some[0].pitches)[0]
    words = spoken(talk("D major", [finger([pitch + shift for pitch in some[0].phrases[0]])], 6, "a seed"))
    name, write = KINDS[kind]
    read = read_captions(write(words), name)
    assert _letters(word.text for word in read.words) == _letters(word.text for word in words)
    assert abs(read.words[-1].end - words[-1].end) < 3.0


def _letters(texts: Iterable[str]) -> str:
    return "".join(character for text in texts for character in text.lower() if character.isalnum())
