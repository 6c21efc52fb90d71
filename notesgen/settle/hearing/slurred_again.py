"""A slur as one stroke: "5 hammer 7 on the D, twice" strikes both notes again, "hit the 7 twice" one."""

from __future__ import annotations

from collections.abc import Sequence
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
SHORTLY = 8  # notes back to which "the same slide again" reaches


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
        return telling.near(said, 1) and _strikes_one_before(telling, said)
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
    return _ending(telling.steps)


def _strikes_one_before(telling: Telling, said: Instruction) -> bool:
    """Whether one of the last notes ends a slur; plays the latest over: "open B, then that slide again"."""
    ends = range(len(telling.steps), max(0, len(telling.steps) - SHORTLY), -1)
    told = next((found for end in ends if (found := _ending(telling.steps[:end]))), [])
    if told:
        strike_over(telling, said, told)
    return bool(told)


def _ending(steps: Sequence[Step]) -> list[Step]:
    grown = [*takewhile(lambda step: step.how in LEGATO, reversed(steps))]
    first = len(steps) - len(grown) - 1
    if not grown or first < 0 or steps[first].section != grown[0].section:
        return []
    return [*steps[first:]]
