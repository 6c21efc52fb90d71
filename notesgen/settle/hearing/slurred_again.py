"""A slur as one stroke: "5 hammer 7 on the D, twice" strikes both notes again, "hit the 7 twice" one."""

from __future__ import annotations

from itertools import takewhile

from notesgen.lesson.model import LEGATO
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.settle.told import Loop
from notesgen.speech.instructions import Instruction


def counts_slur(telling: Telling, said: Instruction, times: int) -> bool:
    """Whether the last note ends a slur, all of which is played so often; says so."""
    size = len(slur(telling))
    if not size:
        return False
    if times > 1:
        end = len(telling.steps)
        telling.seams.append(said.start)
        telling.loops.append(Loop(end - size, end - 1, times))
    return True


def strikes_slur_over(telling: Telling, said: Instruction, times: int = 1) -> bool:
    """Whether the last note ends a slur; plays it so often besides."""
    told = slur(telling)
    for _ in range(times if told else 0):
        strike_over(telling, said, told)
    return bool(told)


def slur(telling: Telling) -> list[Step]:
    """The slur that the last note ends, from its picked note on; none where it was struck again since."""
    grown = [*takewhile(lambda step: step.how in LEGATO, reversed(telling.steps))]
    first = telling.last(len(grown) + 1)
    if not grown or first is None or first.section != grown[0].section:
        return []
    return telling.steps[-len(grown) - 1 :]
