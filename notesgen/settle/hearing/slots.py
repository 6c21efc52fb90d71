"""Reading the slots of an instruction as frets, marks and places in the talk."""

from __future__ import annotations

from typing import cast

from notesgen.lesson.model import Fret, Mark
from notesgen.speech.instructions import Instruction, SlotValue

TELLS = ("fret", "from", "to")
"""The slots by which an instruction tells a note of its own."""


def frets_of(instruction: Instruction, slot: str) -> list[Fret]:
    """The frets in a slot, in the order said."""
    return [int(value) for value in instruction.all(slot) if isinstance(value, int | float)]


def marks_of(instruction: Instruction) -> tuple[Mark, ...]:
    """The mark that the idiom sets, if any."""
    mark = instruction.text("mark")
    return (cast(Mark, mark),) if mark else ()


def slot_of(instruction: Instruction, name: str) -> SlotValue:
    """The first slot of that name. Raises StopIteration when there is none."""
    return next(slot for slot in instruction.slots if slot.name == name)


def named_at(instruction: Instruction, *names: str) -> int:
    """The item at which the first slot begins that was said, of these names or any; else the start."""
    said = [slot for slot in instruction.slots if slot.end > slot.start]
    return min((slot.start for slot in said if not names or slot.name in names), default=instruction.start)


def string_follows(instruction: Instruction) -> bool:
    """Whether the instruction names its string behind its frets: "7 on the B"; not "open B, 7"."""
    told = [slot for slot in instruction.slots if slot.end > slot.start]
    strings = [slot.start for slot in told if slot.name == "string"]
    listed = [slot.start for slot in told if slot.name == "fret"][-1:]
    frets = [slot.start for slot in told if slot.name in ("from", "to")][:1]
    return bool(strings) and any(strings[0] > fret for fret in (*listed, *frets))
