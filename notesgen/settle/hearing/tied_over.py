"""A legato told over notes that were just told plain: "5, 7, 9. From the 7 to the 9 it's a slide"."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Fret, How
from notesgen.settle.hearing.announced import joins, one_list
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.standing import is_elsewhere
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

TOLD = "told"  # the slot "side" of words that only say what leads from one fret to the other
NEAR = 1  # sentences within which the notes were told


def ties_over(telling: Telling, said: Instruction, how: How, start: list[Fret], targets: list[Fret]) -> bool:
    """Joins notes just told as the words say; False where these tell notes of their own."""
    if telling.correcting is not None or len(targets) != 1 or not telling.near(said, NEAR):
        return False
    end = telling.steps[-1].end
    onward = {*telling.words.moving_on, *telling.words.again, *telling.words.going_back}
    anew = telling.said_between(end, said.end) & {*onward, *telling.words.striking}
    if anew or not _points_back(telling, said, bool(start)):
        return False
    reach = min(LOOK_BACK, telling.trailing()) if start else 1
    for back in range(1, min(reach, len(telling.steps) - 1) + 1):
        step, before = telling.steps[-back], telling.steps[-back - 1]
        if step.frets != tuple(targets) or (start and before.frets != tuple(start)):
            continue
        if _may_be_tied(telling, said, how, before, step):
            telling.steps[-back] = replace(step, how=how, joined=True)
            return True
    return False


def _may_be_tied(telling: Telling, said: Instruction, how: How, before: Step, step: Step) -> bool:
    """Whether the technique can lead from the one to the other, on the string that is named with it."""
    plain = step.how == "pick" and not step.stroke and not step.again
    held = {*(step.voices[0].named or step.before)}
    elsewhere = is_elsewhere(telling.strings_of(said), held)
    return plain and not elsewhere and joins(how, before, step) and one_list(before, step)


def _points_back(telling: Telling, said: Instruction, is_pair: bool) -> bool:
    """Whether the fret is spoken of as one already told: "from the 7", "you hammer that 9"."""
    if said.text("side") == TOLD:
        return True
    if not said.all("to"):
        return False
    slot = slot_of(said, "from" if is_pair else "to")
    named = telling.said_between(max(slot.start - 1, said.start), slot.end)
    return bool(named & {*telling.words.pointing, *telling.words.article})
