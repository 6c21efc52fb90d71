"""A copy that is told out note by note behind the reference: "the same two frets up, so that's 12, 14"."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.slots import TELLS, frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

TOLD_WITHIN = 40  # items within which the copy is told out
SURE = 2  # notes by which it is known again
AT_ONCE = 10  # items within which notes that no word of going on leads to tell a copy out
TALK = frozenset({"aside", "position", "box"})  # numbers in these tell no note


def is_told_out(telling: Telling, said: Instruction, copies: Sequence[Step]) -> bool:
    """Whether the frets told next are those with which the copy begins, a pair's in either order, or notes
    follow at once.
    """
    if goes_straight_on(telling, said.end):
        return True
    told: list[Fret] = []
    for one in telling.following:
        if one.start - said.end > TOLD_WITHIN or len(told) >= SURE:
            break
        told += [fret for slot in ("from", "fret", "to", "other_fret") for fret in frets_of(one, slot)]
    first = [fret for step in copies for fret in step.frets][:SURE]
    if not first or len(told) < len(first):
        return False
    return told[: len(first)] in (first, first[::-1] if len(copies[0].voices) > 1 else first)


def goes_straight_on(telling: Telling, end: int) -> bool:
    """Whether notes are told behind item `end` with no word of going on before: "the same there. So 5, 7"."""
    notes = (one for one in telling.following if one.kind not in TALK)
    coming = next((one for one in notes if any(one.all(slot) for slot in TELLS)), None)
    if coming is None or not 0 <= coming.start - end <= AT_ONCE:
        return False
    between = telling.items[end : coming.start + 1]
    return not any(item.text in telling.words.moving_on or item.before >= Break.GAP for item in between)
