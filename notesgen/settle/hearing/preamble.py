"""Numbers before the first string is named: gauges, ages, where the hand will be. Nothing is played there.

Whoever begins to teach a passage says on which string; a number in an earlier sentence is of the talk that
comes first, though no wording knows it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from itertools import groupby, takewhile

from msgspec.structs import replace

from notesgen.settle.step import Step
from notesgen.settle.told import Told

A_PASSAGE = 3  # frets of one sentence that are told as notes, though no string is


def with_preamble(told: Told) -> Told:
    """What was told, with the numbers before the first note held to be talk."""
    preamble = frozenset(_places(told.steps, {naming.sentence for naming in told.namings}))
    return replace(told, held=told.held | preamble, preamble=preamble)


def _places(steps: Sequence[Step], placed: Set[int]) -> Iterator[int]:
    """The places of single frets told without a string in sentences before the first one that has it.

    `placed` are the sentences that name strings on their own.
    """
    bare = list(takewhile(_is_bare, steps))
    if len(bare) == len(steps):
        return
    begins = steps[len(bare)].sentence
    for sentence, run in groupby(range(len(bare)), key=lambda at: steps[at].sentence):
        places = list(run)
        if sentence >= begins or sentence in placed or len(places) >= A_PASSAGE:
            return
        yield from places


def _is_bare(step: Step) -> bool:
    alone = len(step.voices) == 1 and not step.voices[0].named and not step.before
    return alone and step.how == "pick" and not step.marks and step.frets[0] != "x"
