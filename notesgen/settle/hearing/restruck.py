"""Notes told before, struck once more where they were."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.settle.hearing import moved
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction


def worked_out(telling: Telling, said: Instruction, step: Step) -> Step:
    """The step told before as the instruction tells it now: worked out, and put right by nothing."""
    return replace(
        step,
        start=said.start,
        end=said.end,
        sentence=telling.sentences.of(said.start),
        section=len(telling.sections),
        origin="derived",
        corrected="",
    )


def strike_over(telling: Telling, said: Instruction, called: Sequence[Step]) -> None:
    """Adds the steps once more, as said by the instruction."""
    telling.seams.append(said.start)
    for step in moved.settled(called):
        telling.steps.append(replace(worked_out(telling, said, step), again=True, closes=False))
