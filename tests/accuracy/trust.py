"""The drafted events of lessons and tunes with their clues, and which of them turned out wrong."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from notesgen.captions.source import load_captions
from notesgen.pipeline import Given, Rooms, rooms
from notesgen.settle.trust.clues import Clues
from tests.accuracy.align import align, difference
from tests.accuracy.cases import Case
from tests.accuracy.draft import as_notes
from tests.accuracy.gold import Gold, read_gold
from tests.accuracy.workers import each
from tests.outside.tunes.check import put_into_words
from tests.outside.tunes.corpus import tunes
from tests.outside.tunes.fingering import octaves
from tests.outside.tunes.floors import TUNES
from tests.outside.tunes.voices import VOICES

KINDS = ("punctuated", "roll-up")
"""The kinds of captions of a tune that count: the others hold the same words."""


class Seen(Struct, frozen=True):
    """One note that was heard: its clues, whether it is no such `note`, else whether on another `string`.

    `spoken` tells that nothing is played there at all.
    """

    clues: Clues
    note: bool
    string: bool
    spoken: bool


class Lesson(Struct, frozen=True):
    """The events of one lesson in playing order. A tune in several kinds of captions is one lesson."""

    name: str
    seen: tuple[Seen, ...]


def lessons(cases: Iterable[Case]) -> tuple[Lesson, ...]:
    """The lessons with right answers, drafted."""
    return tuple(each(_lesson, cases))


def _lesson(case: Case) -> Lesson:
    return Lesson(case.name, seen(rooms(load_captions(str(case.captions)), Given()), read_gold(case.gold)))


def tune_lessons() -> tuple[Lesson, ...]:
    """The tunes of the small run put into words, with punctuation and without."""
    told = []
    for count, tune in enumerate(tunes(TUNES)):
        if octaves(tune.pitches):
            put = put_into_words(tune, 1 + count % len(VOICES))
            found = (seen(rooms(put.captions[kind], Given()), put.gold) for kind in KINDS)
            told.append(Lesson(str(tune.number), tuple(one for kind in found for one in kind)))
    return tuple(told)


def seen(drafted: Rooms, gold: Gold) -> tuple[Seen, ...]:
    """Each note that was heard, left out or not, against the right answer."""
    heard = drafted.drafted.heard
    notes = tuple(
        note for place, one in enumerate(heard) for note in as_notes(replace(one.event, id=str(place)))
    )
    no_note, other_string, spoken = set(), set(), set()
    for g, d in align(gold.notes, notes, difference):
        if d is None:
            continue
        note, wanted = notes[d], None if g is None else gold.notes[g]
        if wanted is None:
            spoken.add(note.event)
        if wanted is None or wanted.fret != note.fret:
            no_note.add(note.event)
        elif wanted.string != note.string:
            other_string.add(note.event)
    other_string -= no_note
    return tuple(
        Seen(one.clues, name in no_note, name in other_string, name in spoken)
        for name, one in zip(map(str, range(len(heard))), heard, strict=True)
    )
