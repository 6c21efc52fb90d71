"""A whole phrase taken back and told anew: "5, 7 on the A, scratch that, 9, 11 on the A".

A repair is built as what it replaces: what stands before the trouble and what comes in its place could be
joined by "and" (Levelt 1983, "Monitoring and self-repair in speech"). So a list replaces a list.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from notesgen.settle.hearing.slots import TELLS, frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

BOTH = 2  # notes that "both of those" takes back


def scratched(telling: Telling, said: Instruction, told: Sequence[Instruction]) -> int:
    """How many of the last notes the repair takes back as a whole; 0 where it replaces but one.

    `told` is what the repair tells in one breath.
    """
    if not told:
        return 0
    slip, over = _listed(telling), _list_of(told)
    spoken = telling.said_between(said.start, over[0].start)
    if spoken & {*telling.words.scratching, *telling.words.whole}:
        if len(slip) > 1 and _count(over) > 1:
            return len(slip)
        if _count(told) >= BOTH and spoken & {*telling.words.whole}:
            return min(BOTH, telling.trailing())
    return len(slip) if _count(over) == len(slip) > 1 and _is_built_alike(telling, slip, over) else 0


def _count(told: Sequence[Instruction]) -> int:
    return sum(len(frets_of(one, slot)) for one in told for slot in TELLS)


def _list_of(told: Sequence[Instruction]) -> list[Instruction]:
    """What the repair begins with, up to the first string that is named behind its frets."""
    before = list(takewhile(lambda one: not one.all("string"), told))
    return [*before, *told[len(before) : len(before) + 1]]


def _listed(telling: Telling) -> list[Step]:
    """The notes told in one breath with the last one, up to a string that closes those before."""
    listed: list[Step] = telling.steps[-1:]
    for step in reversed(telling.steps[:-1]):
        here = listed[0]
        at_once = here.start == step.start or (0 <= here.start - step.end <= 1 and not step.voices[0].named)
        if not at_once or step.sentence != here.sentence:
            break
        listed.insert(0, step)
    return listed


def _is_built_alike(telling: Telling, slip: list[Step], over: list[Instruction]) -> bool:
    """Whether both lists have a string and are joined alike, or are joined by words and end with a pause.

    What merely goes on, "5, 7, no, 8, 10", puts the last note right; so does "5, 7, no, 8, then 10 on the D".
    """
    if any(step.how != "pick" or step.again or len(step.voices) > 1 for step in slip):
        return False
    words, end = {*telling.words.joining, *telling.words.moving_on}, over[-1].end
    joined = telling.said_between(slip[0].start, slip[-1].end) & words
    alike = joined == telling.said_between(over[0].start, end) & words
    if over[-1].all("string"):
        return slip[-1].closes and (len(over) == 1 or alike) and all(one.kind == "note" for one in over)
    pauses = end >= len(telling.items) or telling.items[end].before >= Break.SOFT
    return pauses and bool(joined) and alike
