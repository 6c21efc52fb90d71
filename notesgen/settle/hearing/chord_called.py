"""Chords only called by their names: struck where they are strummed at once, or go on with those that are.

"Strum a G chord, then C, then the D chord twice" strikes all three.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.speech.instructions import Instruction

CALLED = "called"  # the slot "label" of an aside that only calls a chord by its name
STRUMMED_WITHIN = 6  # items behind the name within which it is strummed
NEXT = 4  # instructions among which the strum is looked for
PASSED_OVER = ("aside", "frame")
COUNTS = ("aside", "count")  # what may stand between two chords of a row: "the G chord once, then C"
BESIDE = 2  # items between two chords of a row


def strummed(instructions: tuple[Instruction, ...]) -> tuple[Instruction, ...]:
    """The instructions, with each chord that is called and then strummed as one that goes down, and each that
    goes on with a row of struck ones as one of them.
    """
    told: list[Instruction] = []
    for at, said in enumerate(instructions):
        following = instructions[at + 1 : at + 1 + NEXT]
        if _is_called(said, following):
            told.append(_put_down(said))
        elif _goes_on(said, told, following):
            told.append(_struck(said))
        else:
            told.append(said)
    return tuple(told)


def _is_called(said: Instruction, following: Sequence[Instruction]) -> bool:
    """Whether the words call a chord, and the next thing told is that it is strummed."""
    if said.kind != "aside" or said.text("label") != CALLED:
        return False
    coming = next((one for one in following if one.kind not in PASSED_OVER), None)
    return coming is not None and coming.kind == "strum" and coming.start - said.end <= STRUMMED_WITHIN


def _goes_on(said: Instruction, told: Sequence[Instruction], following: Sequence[Instruction]) -> bool:
    """Whether the words call one more chord right behind one that is struck: "... then an A minor chord"."""
    counted = len(told) > 1 and told[-1].kind in COUNTS and not told[-1].all("chord")
    before = told[-2] if counted else told[-1] if told else None
    if before is None or before.kind != "chord" or said.start - told[-1].end > BESIDE:
        return False
    if said.kind == "letter":
        fretted = bool(following) and following[0].kind == "note" and following[0].start - said.end <= BESIDE
        return len(said.all("letter")) == 1 and not fretted
    return said.kind == "aside" and said.text("label") == CALLED


def _put_down(said: Instruction) -> Instruction:
    return replace(said, kind="grip", slots=tuple(slot for slot in said.slots if slot.name == "chord"))


def _struck(said: Instruction) -> Instruction:
    slots = [slot for slot in said.slots if slot.name in ("chord", "letter")]
    return replace(said, kind="chord", slots=tuple(replace(slot, name="chord") for slot in slots))
