"""Notes told before, struck once more where they were."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.settle.hearing import moved
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction


def strike_over(telling: Telling, said: Instruction, called: Sequence[Step]) -> None:
    """Adds the steps once more, as said by the instruction."""
    telling.seams.append(said.start)
    for step in moved.settled(called):
        again = replace(
            step,
            start=said.start,
            end=said.end,
            sentence=telling.sentences.of(said.start),
            section=len(telling.sections),
            origin="derived",
            corrected="",
            again=True,
            closes=False,
        )
        telling.steps.append(again)
