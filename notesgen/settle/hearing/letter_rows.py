"""Rows of letters with their frets, as one note each: "C sharp nine, C eight, B seven"."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from notesgen.speech.instructions import Instruction, SlotValue
from notesgen.speech.items import Item

KIND = "lettered"
AT = "@"  # how the grammar writes a letter and its fret
ARTICLE = "A"  # the letter that may as well be the article
ACCIDENTALS = "#b"


def spread(instructions: tuple[Instruction, ...], items: tuple[Item, ...]) -> tuple[Instruction, ...]:
    """The instructions, with each row of letters as notes, one for each letter and its fret."""
    return tuple(one for said in instructions for one in (_notes(said, items) if said.kind == KIND else [said]))


def _notes(said: Instruction, items: tuple[Item, ...]) -> Iterator[Instruction]:
    """One note for each letter and its fret. The letter stands in the slot of the string, whatever it means."""
    start = said.start
    for slot in said.slots:
        letter, _, fret = str(slot.value).partition(AT)
        name = letter[:1].lower()
        at = next(at for at in range(slot.start, slot.end) if items[at].text == name)
        behind = at + 1 + (letter[1:] in tuple(ACCIDENTALS))
        slots = (SlotValue("string", letter, at, behind), SlotValue("fret", int(float(fret)), behind, slot.end))
        yield replace(said, kind="note", start=start, end=slot.end, slots=slots)
        start = slot.end
