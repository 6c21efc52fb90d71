"""Rows of letters with their frets, as one note each: "C sharp nine, C eight, B seven"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from notesgen.speech.instructions import Instruction, SlotValue
from notesgen.speech.items import Item

KIND = "lettered"
AT = "@"  # how the grammar writes a letter and its fret
ARTICLE = "A"  # the letter that may as well be the article
ACCIDENTALS = "#b"
CHORD_NUMBERS = frozenset({5, 6, 7, 9, 11, 13})  # which stand behind the letters of chords; common practice
BESIDE = 2  # items between two notes told in one go


def spread(instructions: tuple[Instruction, ...], items: tuple[Item, ...]) -> tuple[Instruction, ...]:
    """The instructions, with each row of letters as notes, one for each letter and its fret."""
    return tuple(
        one
        for at, said in enumerate(instructions)
        for one in _parts(said, instructions[max(0, at - 1) : at], instructions[at + 1 : at + 2], items)
    )


def _parts(
    said: Instruction, before: Sequence[Instruction], after: Sequence[Instruction], items: tuple[Item, ...]
) -> Iterator[Instruction]:
    """The notes of a row. A lone letter with a number as chords bear it is a note beside others told so."""
    if said.kind != KIND:
        yield said
        return
    _, _, number = str(said.slots[0].value).partition(AT)
    beside = (*(one for one in before if said.start - one.end <= BESIDE), *(one for one in after))
    if len(said.slots) == 1 and int(number) in CHORD_NUMBERS and not any(map(_is_lettered, beside)):
        yield replace(said, kind="aside", slots=(replace(said.slots[0], name="chord"),))
        return
    yield from _notes(said, items)


def _is_lettered(said: Instruction) -> bool:
    """Whether the note is told by a letter and its fret."""
    letter = said.text("letter") or said.text("string") or ""
    return said.kind == KIND or (said.kind == "note" and bool(said.all("fret")) and len(letter) in (1, 2))


def _notes(said: Instruction, items: tuple[Item, ...]) -> Iterator[Instruction]:
    """One note for each letter and its fret. The letter stands in the slot of the string, whatever it is."""
    start = said.start
    for slot in said.slots:
        letter, _, fret = str(slot.value).partition(AT)
        name = letter[:1].lower()
        at = next(at for at in range(slot.start, slot.end) if items[at].text == name)
        behind = at + 1 + (letter[1:] in tuple(ACCIDENTALS))
        told = SlotValue("fret", int(float(fret)), behind, slot.end)
        slots = (SlotValue("string", letter, at, behind), told)
        yield replace(said, kind="note", start=start, end=slot.end, slots=slots)
        start = slot.end
