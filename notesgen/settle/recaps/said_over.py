"""Runs said over right behind, number by number: "8 on the B, slide to 10, back to 8, so 8 10 8"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from notesgen.settle.recaps.align import Pairs, align, repeats
from notesgen.settle.recaps.blocks import Block, Surroundings
from notesgen.settle.step import Step

LEAST = 3  # notes from which it is no chance that they are the last ones
OPENING = 3  # items of a sentence within which "that's" states what follows
LISTED = 2  # words a note up to which numbers are only listed


def said_over(steps: Sequence[Step], memory: Sequence[int], places: Sequence[int]) -> Pairs:
    """The first of the notes, as many as just say the last ones of the memory over; few are none."""
    for size in range(len(places), LEAST - 1, -1):
        told = places[:size]
        if _is_listed(steps, told) and (pairs := repeats(steps, memory[-size:], told)):
            return pairs
    return []


def pointed_over(
    block: Block, memory: Sequence[int], around: Surroundings, stating: Sequence[str]
) -> Pairs | None:
    """The notes told over behind a word that points at them, to the letter: "that's 5, 7 on the G".

    Where strings are named the words have to state it, and the notes are those told last.
    """
    if not around.is_named(block):
        pairs, share = align(around.steps, memory, block.places)
        return pairs if share == 1.0 else None
    start = around.sentences.start(block.sentence)
    stated = any(item.text in stating for item in around.items[start : start + OPENING])
    told_before = any(around.steps[place].sentence == block.sentence for place in memory)
    if not stated or told_before or around.is_settled(block):
        return None
    last = memory[-len(block.places) :]
    alike = [around.steps[place].how for place in last] == [around.steps[place].how for place in block.places]
    return repeats(around.steps, last, block.places) if alike else None


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
