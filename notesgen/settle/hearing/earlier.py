"""Notes told after the ones that they come before: "the 7, but right before that the 5"."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO
from notesgen.settle.hearing.notes import note
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

AT_ONCE = 10  # items within which the earlier note is named


def comes_earlier(telling: Telling, said: Instruction) -> None:
    """The next note comes before the last one, or before the one that the words name with it."""
    last = telling.last()
    if said.all("fret") and (last is None or last.frets != tuple(frets_of(said, "fret"))):
        note(telling, said)
    telling.earlier_at = said.end if telling.near(said, 1) else -1


def put_earlier(telling: Telling, said: Instruction, told: int) -> None:
    """Moves what the instruction just told behind step `told` to where it is played, if that is earlier."""
    waiting, telling.earlier_at = telling.earlier_at, -1
    if waiting < 0 or not told or not _belongs(telling, said, waiting):
        return
    fresh = telling.steps[told:]
    at = _begins(telling.steps, told - 1)
    before = telling.steps[max(0, at - len(fresh)) : at]
    del telling.steps[told:]
    if [step.frets for step in before] != [step.frets for step in fresh] or not fresh:
        start = telling.steps[at].start  # told later, but heard no later than what it precedes
        telling.steps[at:at] = [replace(step, start=start) for step in fresh]


def _belongs(telling: Telling, said: Instruction, waiting: int) -> bool:
    """Whether the words are what was to come earlier: told in one sentence with it, and no "then"."""
    together = telling.sentences.of(said.start) == telling.sentences.of(waiting - 1)
    moves_on = telling.said_between(waiting, said.end) & set(telling.words.moving_on)
    return together and not moves_on and said.start - waiting <= AT_ONCE


def _begins(steps: list[Step], at: int) -> int:
    """The place at which the note that is heard at `at` was struck: slurred ones grow out of those before."""
    while at and steps[at].how in LEGATO and "slide-in" not in steps[at].marks:
        at -= 1
    return at
