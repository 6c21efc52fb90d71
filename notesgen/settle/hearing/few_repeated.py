"""The last few notes, repeated as a passage of just those: "those two notes three times", "that pair"."""

from __future__ import annotations

from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.settle.told import Loop, read_count
from notesgen.speech.instructions import Instruction

A_PAIR = 2


def repeats_few(telling: Telling, said: Instruction) -> bool:
    """Whether the words point back to so many notes, told one by one just before; repeats them."""
    size = _pointed_at(telling, said)
    run = telling.steps[-size:] if size > 1 else []
    times, unsure = read_count(said.text("count"))
    if times < A_PAIR or len(run) < size or not run or not telling.near(said, 1):
        return False
    struck = any(len(step.voices) > 1 or step.again for step in run)
    looped = bool(telling.loops) and telling.loops[-1].last >= len(telling.steps) - size
    if struck or looped or run[0].section != len(telling.sections) or run[-1].sentence - run[0].sentence > 1:
        return False
    telling.seams.append(said.start)
    telling.loops.append(Loop(len(telling.steps) - size, len(telling.steps) - 1, times, unsure))
    return True


def is_of_one(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether "two quarter notes" counts the strokes of one note, and not the notes of a list."""
    listed = (before := telling.last(2)) is not None and before.start == last.start
    own = telling.trailing() == 1 or (telling.has_own_string(last) and not listed)
    return own and telling.near(said, 0)


def _pointed_at(telling: Telling, said: Instruction) -> int:
    """How many notes the words in front of the count point back to; 0 where they count none."""
    words, lead = telling.words, telling.items[said.start : slot_of(said, "count").start]
    spoken = [item.text for item in lead]
    if not {*spoken} & {*words.pointing} or {*spoken} & {*words.each}:
        return 0
    if {*spoken} & {*words.a_pair}:
        return A_PAIR
    number = next((telling.values[text] for text in spoken if text in telling.values), 0)
    counts_notes = spoken[-1] in telling.values or {*spoken} & {*words.sounding}
    return number if counts_notes else 0
