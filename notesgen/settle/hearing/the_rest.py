"""The rest of a passage as it was: "second time, 2 on the low E, and the other two are as before"."""

from __future__ import annotations

from notesgen.settle.hearing.passages import played_between
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

LONGEST = 16  # notes of the passage that goes on as before


def strike_rest(telling: Telling, said: Instruction) -> None:
    """Strikes over what came behind the notes that are told otherwise this time; asks where nothing did.

    Behind a chord the words are of its other voices, which stay where they are.
    """
    last = telling.last()
    if last is None or len(last.voices) > 1 or _is_told_behind(telling, said):
        return
    count = said.whole("count")
    changed = _changed(telling, last, count or 0)
    before = _passage_before(telling, len(telling.steps) - changed)
    rest = before[changed:] if count is None else before[max(changed, len(before) - count) :]
    if not rest or len(rest) != (count or len(rest)):
        telling.unwritten.append(said)
        return
    strike_over(telling, said, rest)


def _is_told_behind(telling: Telling, said: Instruction) -> bool:
    """Whether the notes themselves follow in the same sentence: "the rest is the same: 7, 5"."""
    sentence = telling.sentences.of(said.start)
    told = telling.following[:1]
    return any(one.all("fret") and telling.sentences.of(one.start) == sentence for one in told)


def _changed(telling: Telling, last: Step, count: int) -> int:
    """How many notes are told otherwise: those in the sentence of the last one.

    Where no full stop parts the two rounds, so many as make them equally long with the `count` that stay.
    """
    told = sum(1 for step in telling.steps if step.sentence == last.sentence)
    return told if told < len(telling.steps) else max(0, told - count) // 2


def _passage_before(telling: Telling, end: int) -> list[Step]:
    """The steps in front of place `end`, back to where the teacher last played or another section began."""
    found: list[Step] = []
    for step in reversed(telling.steps[:end]):
        after = found[0] if found else step
        parted = played_between(telling, step.end, after.start) or step.section != after.section
        if parted or len(found) == LONGEST:
            break
        found.insert(0, step)
    return found
