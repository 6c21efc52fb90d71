"""Chords only called by their names: put down where they are strummed at once, else only spoken of."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.speech.instructions import Instruction

CALLED = "called"  # the slot "label" of such a chord
STRUMMED_WITHIN = 6  # items behind its name within which it is strummed
NEXT = 4  # instructions among which the strum is looked for
PASSED_OVER = ("aside", "frame")


def strummed(instructions: tuple[Instruction, ...]) -> tuple[Instruction, ...]:
    """The instructions, with each chord that is called and not strummed as an aside."""
    return tuple(
        said
        if said.text("label") != CALLED or _is_strummed(said, instructions[at + 1 : at + 1 + NEXT])
        else _spoken(said)
        for at, said in enumerate(instructions)
    )


def _is_strummed(said: Instruction, following: Sequence[Instruction]) -> bool:
    coming = next((one for one in following if one.kind not in PASSED_OVER), None)
    return coming is not None and coming.kind == "strum" and coming.start - said.end <= STRUMMED_WITHIN


def _spoken(said: Instruction) -> Instruction:
    return replace(said, kind="aside", slots=tuple(slot for slot in said.slots if slot.name == "chord"))
