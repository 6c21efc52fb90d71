"""A slur as one stroke: "5 hammer 7 on the D, twice" strikes both notes again, "hit the 7 twice" one."""

from __future__ import annotations

from itertools import takewhile

from notesgen.lesson.model import LEGATO
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.settle.told import Cue, Loop, read_count
from notesgen.speech.instructions import Instruction

SO_MANY = "so many"  # the slot "side" of slurs that are counted ahead: "two hammer-ons from 3 to 6"
BY_NAME = "slur"  # ... of a slur asked for by its name: "the same hammer-on again"
DONE = "done"  # ... of "do it once more"


def play_so_many(telling: Telling, said: Instruction) -> None:
    """Plays the slur just told as often as it was counted ahead."""
    if said.text("side") == SO_MANY:
        times, _ = read_count(said.text("count"))
        strikes_slur_over(telling, said, times - 1)


def slurs_again(telling: Telling, said: Instruction) -> bool:
    """Whether a slur is asked for once more, by its name or as what was done; plays it, where there is one.

    "Do it once more" behind several strokes announces that they are told over.
    """
    if said.text("side") == BY_NAME:
        return telling.near(said, 1) and strikes_slur_over(telling, said)
    if said.text("side") != DONE or (telling.trailing() == 1 and telling.near(said, 0)):
        return False
    if telling.near(said, 0) and len(slur(telling)) == telling.trailing():
        return strikes_slur_over(telling, said)
    telling.seams.append(said.start)
    telling.recaps.append(Cue(said.start, weak=False))
    return True


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
