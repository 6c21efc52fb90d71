"""How a decision knows an event again: the words that gave it, the words around them, time and frets."""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterable
from functools import lru_cache

from msgspec import Struct
from text_to_num import alpha2digit

from notesgen.lesson.model import Event, Fret, Lesson, Note

AROUND = 48  # characters of words kept on either side
NEIGHBOURS = 4  # utterances looked at for them
DECIMALS = 3  # of seconds, as in lesson.json


class Utterance(Struct, frozen=True):
    """The events that one stretch of words gave, in playing order; `at` in seconds, words around it."""

    at: float
    words: str
    before: str
    after: str
    events: tuple[Event, ...]


def utterances(lesson: Lesson) -> tuple[Utterance, ...]:
    """The lesson's events by the words that gave them, in order of time."""
    groups: dict[tuple[float, str], list[Event]] = {}
    for event in lesson.events:
        groups.setdefault(key_of(event), []).append(event)
    ordered = sorted(groups, key=lambda key: key[0])
    return tuple(
        Utterance(
            at,
            words,
            last_words(said for _, said in ordered[max(0, place - NEIGHBOURS) : place]),
            first_words(said for _, said in ordered[place + 1 : place + 1 + NEIGHBOURS]),
            tuple(groups[at, words]),
        )
        for place, (at, words) in enumerate(ordered)
    )


def key_of(event: Event) -> tuple[float, str]:
    """What events of one utterance share: when it begins, and its words."""
    return round(event.start, DECIMALS), event.quote


def print_of(lesson: Lesson) -> str:
    """A fingerprint of the captions, as far as a lesson knows them: the numbers said, and when."""
    said = "\n".join(f"{number.start:.2f} {number.text}" for number in lesson.numbers)
    return f"{zlib.crc32(said.encode(errors='replace')):08x}"


@lru_cache(maxsize=10_000)  # the same utterances are compared at every answer
def plain(words: str, language: str = "en") -> str:
    """Words as they are compared: small letters, digits for number words, no punctuation."""
    bare = " ".join(re.sub(r"[^\w#]+", " ", words.lower()).split())
    return alpha2digit(bare, language, threshold=0) if bare else ""


def frets(notes: Iterable[Note]) -> tuple[Fret, ...]:
    """What a change of string leaves alone."""
    return tuple(note.fret for note in notes)


def last_words(parts: Iterable[str]) -> str:
    """The end of what is said, whole words only."""
    text = " ".join(part for part in parts if part)
    return text if len(text) <= AROUND else text[-AROUND:].partition(" ")[2]


def first_words(parts: Iterable[str]) -> str:
    """The beginning of what is said, whole words only."""
    text = " ".join(part for part in parts if part)
    return text if len(text) <= AROUND else text[:AROUND].rpartition(" ")[0]
