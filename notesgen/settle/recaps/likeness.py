"""How like a run of notes is to others, told before it and behind it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from notesgen.settle.recaps.align import align
from notesgen.settle.recaps.blocks import Block, Surroundings

LATELY = 24  # notes back whose frets are still in the ear
AHEAD = 24  # notes to come among which a run may be told again
MEMORY = 60  # notes back among which it may have been told
LONG = 8  # notes from which a run is long
ONWARD = 10  # notes of a run and of what follows it that are weighed as one
FEW = 5  # ... of them from which they are no chance likeness
ALIKE, NEARLY = 0.85, 0.6  # shares that agree from which a run is told over, or is so with slips


class Likeness(Struct, frozen=True, kw_only=True):
    """How like the run is to notes told just before (`near`), at any time (`anywhere`), or after (`ahead`).

    `unknown` is the share of its notes that were not told lately, `long_known` that of the others in a run
    of many notes; `long_anywhere` is `anywhere` in such a run. `onward` tells that with what follows it the
    run goes over notes told before, `to_the_end` that what it is like ends with the last new note.
    """

    near: float
    ahead: float
    unknown: float
    long_known: float
    anywhere: float
    long_anywhere: float
    onward: float
    to_the_end: float


def likeness(
    block: Block, new: Sequence[int], following: Sequence[Sequence[int]], around: Surroundings
) -> Likeness:
    """What the block is like. `new` are places of the new notes so far, some; `following` the runs behind."""
    steps = [around.steps[place] for place in block.places]
    size = len(steps)
    known = {around.steps[place].frets for place in new[-LATELY:]}
    unknown = sum(step.frets not in known for step in steps) / size
    section = steps[-1].section
    coming = [place for run in following for place in run if around.steps[place].section == section]
    pairs, anywhere = align(around.steps, new[-MEMORY:], block.places)
    last = max((place for place, _ in pairs if place is not None), default=-1)
    many = min(size / LONG, 1.0)
    return Likeness(
        near=_agreement(around, new[-2 * size - 2 :], block.places),
        ahead=_agreement(around, coming[:AHEAD], block.places) if size > 1 else 0.0,
        unknown=unknown,
        long_known=(1 - unknown) * many,
        anywhere=max(0.0, anywhere),
        long_anywhere=max(0.0, anywhere) * many,
        onward=float(_is_gone_over(around, new, [*block.places, *_soon(around, block, coming)])),
        to_the_end=float(anywhere >= NEARLY and last == new[-1]),
    )


def _soon(around: Surroundings, block: Block, coming: Sequence[int]) -> Iterator[int]:
    """The notes to come in the block's stretch of talk, a few."""
    stretch = around.sentences.stretch(around.start(block))
    for place in coming[: max(0, ONWARD - len(block.places))]:
        if around.sentences.stretch(around.steps[place].start) == stretch:
            yield place


def _is_gone_over(around: Surroundings, new: Sequence[int], run: Sequence[int]) -> bool:
    return len(run) >= FEW and _agreement(around, new[-MEMORY:], run) >= ALIKE


def _agreement(around: Surroundings, told: Sequence[int], run: Sequence[int]) -> float:
    return max(0.0, align(around.steps, told, run)[1]) if told else 0.0
