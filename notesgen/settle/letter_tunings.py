"""Tunings that are only read out, a letter for each string: "so that's D, A, D, then G, A, and D on top".

As many letters as the guitar has strings are a tuning where each lies near the usual note of its string:
melodies and scales of that length hardly ever do.
"""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median_low

from msgspec import Struct

from notesgen.grammar.model import WordLists
from notesgen.music.pitch import midi
from notesgen.music.tuning import Tuning, parse_tuning, standard
from notesgen.settle.claims import first_fret
from notesgen.settle.tunings import FROM_HIGH
from notesgen.speech.instructions import Instruction, SlotValue
from notesgen.speech.items import Break, Item

INSTRUMENTS = ("guitar", "7-string guitar")
FAR, UP = 4, 2  # semitones by which a string may be lower than the others, or higher
ALIKE = 3  # strings that must stay as they are, or be lowered like the others
SAID = 2  # ... where a tuning is spoken of
NEAR = 16  # items before the letters in which it is
LONGEST = 8  # letters in a row; more are a melody

_LETTERS = frozenset("abcdefg")
_SIGNS = {"flat": "b", "sharp": "#"}


class _Letter(Struct, frozen=True):
    """A note by its letter, at the items `start` up to `end`."""

    note: str
    start: int
    end: int


def letter_tunings(
    said: tuple[Instruction, ...], items: tuple[Item, ...], words: WordLists
) -> tuple[Instruction, ...]:
    """The tunings read out in the talk: before its first fret, or where a tuning is spoken of."""
    first = first_fret(said, len(items))
    tuned = [one.start for one in said if one.kind == "tuning"]
    tuning = frozenset((*words.tuning_words, *words.open))
    found = []
    for row in _rows(items, frozenset((*words.joining, *words.moving_on))):
        near = range(row[0].start - NEAR, row[-1].end)
        spoken_of = any(at in near for at in tuned) or any(items[at].text in tuning for at in near if at >= 0)
        if (spoken_of or row[0].start < first) and (told := _tuning(row, SAID if spoken_of else ALIKE)):
            found.append(told)
    return tuple(found)


def _rows(items: tuple[Item, ...], links: frozenset[str]) -> Iterator[list[_Letter]]:
    """Letters with nothing but links between them."""
    row: list[_Letter] = []
    at = 0
    while at < len(items):
        item = items[at]
        if item.text in _LETTERS:
            sign = _SIGNS.get(items[at + 1].text, "") if at + 1 < len(items) else ""
            row.append(_Letter(item.text.upper() + sign, at, at + 1 + bool(sign)))
            at += 1 + bool(sign)
            continue
        if item.text not in links or item.before >= Break.HARD:
            yield from [row] if row else []
            row = []
        at += 1
    yield from [row] if row else []


def _tuning(row: list[_Letter], alike: int) -> Instruction | None:
    """The tuning that a row of letters holds, in either order, with so many strings `alike`."""
    for instrument in INSTRUMENTS if len(row) <= LONGEST else ():
        size = len(standard(instrument))
        if any(_is_usual(row[at : at + size], instrument) for at in range(len(row) - size + 1)):
            return None
        for at in range(len(row) - size + 1):
            part = row[at : at + size]
            for order in ("", FROM_HIGH):
                if _is_near(part[::-1] if order else part, instrument, alike):
                    return _instruction(part, order)
    return None


def _is_near(row: list[_Letter], instrument: str, alike: int) -> bool:
    """Whether the notes, lowest string first, are a tuning other than the standard one."""
    usual = standard(instrument)
    tuning: Tuning = parse_tuning(" ".join(letter.note for letter in row), instrument)
    apart = [midi(now) - midi(was) for now, was in zip(tuning, usual, strict=True)]
    for lower in {0, min(0, median_low(apart))}:
        moved = [far - lower for far in apart if far != lower]
        if any(apart) and all(-FAR <= far <= UP for far in moved) and len(usual) - len(moved) >= alike:
            return True
    return False


def _is_usual(row: list[_Letter], instrument: str) -> bool:
    usual = [name[:-1] for name in standard(instrument)]
    return [letter.note for letter in row] in (usual, usual[::-1])


def _instruction(row: list[_Letter], order: str) -> Instruction:
    slots = [SlotValue("letters", letter.note, letter.start, letter.end) for letter in row]
    if order:
        slots.append(SlotValue("order", order, row[0].start, row[-1].end))
    return Instruction("tuning", row[0].start, row[-1].end, tuple(slots))
