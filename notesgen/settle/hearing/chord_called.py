"""Chords only called by their names: put down where they are strummed at once, else only spoken of."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.speech.instructions import Instruction

CALLED = "called"  # the slot "label" of an aside that only calls a chord by its name
STRUMMED_WITHIN = 6  # items behind the name within which it is strummed
NEXT = 4  # instructions among which the strum is looked for
PASSED_OVER = ("aside", "frame")


def strummed(instructions: tuple[Instruction, ...]) -> tuple[Instruction, ...]:
    """The instructions, with each chord that is called and then strummed as one that goes down."""
    return tuple(
        _put_down(said) if _is_called(said, instructions[at + 1 : at + 1 + NEXT]) else said
        for at, said in enumerate(instructions)
    )


def _is_called(said: Instruction, following: Sequence[Instruction]) -> bool:
    """Whether the words call a chord, and the next thing told is that it is strummed."""
    if said.kind != "aside" or said.text("label") != CALLED:
        return False
    coming = next((one for one in following if one.kind not in PASSED_OVER), None)
    return coming is not None and coming.kind == "strum" and coming.start - said.end <= STRUMMED_WITHIN


def _put_down(said: Instruction) -> Instruction:
    return replace(said, kind="grip", slots=tuple(slot for slot in said.slots if slot.name == "chord"))
