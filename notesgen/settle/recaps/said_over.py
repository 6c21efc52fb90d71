"""Runs said over right behind, number by number: "8 on the B, slide to 10, back to 8, so 8 10 8"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from notesgen.settle.recaps.align import Pairs, repeats
from notesgen.settle.recaps.blocks import Block
from notesgen.settle.step import Step

LEAST = 3  # notes from which it is no chance that they are the last ones
LISTED = 2  # words a note up to which numbers are only listed


def said_over(steps: Sequence[Step], memory: Sequence[int], places: Sequence[int]) -> Pairs:
    """The first of the notes, as many as just say the last ones of the memory over; few are none."""
    for size in range(len(places), LEAST - 1, -1):
        told = places[:size]
        if _is_listed(steps, told) and (pairs := repeats(steps, memory[-size:], told)):
            return pairs
    return []


def parted(steps: Sequence[Step], block: Block) -> Iterator[Block]:
    """The block, cut where it begins to say over what it has told at length."""
    places = block.places
    for at in range(LEAST, len(places) - LEAST + 1):
        pairs = said_over(steps, places[:at], places[at:])
        if pairs and not _is_listed(steps, [first for first, _ in pairs if first is not None]):
            yield replace(block, places=places[:at])
            yield from parted(steps, replace(block, places=places[at:], seam=-1))
            return
    yield block


def _is_listed(steps: Sequence[Step], places: Sequence[int]) -> bool:
    """Whether the notes are numbers in a row, with nothing of their own: no string, no second stroke."""
    run = [steps[place] for place in places]
    own = any(step.voices[0].named or step.again or step.copied or step.corrected for step in run)
    return not own and run[-1].end - run[0].start <= len(run) * LISTED
