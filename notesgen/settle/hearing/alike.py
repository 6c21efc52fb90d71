"""A run spelled out as "the same" with frets of its own: it is hammered and pulled as the run before it.

Where the words say how far it moves, and the frets agree, it lies on the strings of that run as well.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.lesson.model import BENDS, LEGATO
from notesgen.settle.hearing.patterns import leads
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step


def expect(telling: Telling, model: Sequence[Step]) -> None:
    """The notes told next are played as the model was, one by one."""
    telling.model, telling.alike_from = tuple(model), len(telling.steps)


def play_alike(telling: Telling, told: int) -> None:
    """Slurs the plain notes told behind step `told`, where the model is slurred and the frets allow it."""
    for place in range(max(told, telling.alike_from), len(telling.steps)):
        at = place - telling.alike_from
        if telling.alike_from < 0 or at >= len(telling.model):
            telling.alike_from = -1
            return
        _lay_alike(telling, place, telling.model[at])
        how, before, step = telling.model[at].how, telling.steps[place - 1], telling.steps[place]
        slurred = bool(at) and how in LEGATO and step.how == "pick"
        if slurred and _is_single(before, step) and leads(how, before, step):
            telling.steps[place] = replace(step, how=how)
        elif how in BENDS and step.how == "pick" and _is_single(step):
            telling.steps[place] = replace(step, how=how, bend=telling.model[at].bend)


def _lay_alike(telling: Telling, place: int, model: Step) -> None:
    """Puts a note without a string where the model, moved as was said, has the same fret."""
    step = telling.steps[place]
    if model.copied and _is_single(step) and not step.voices[0].named and step.frets == model.frets:
        telling.steps[place] = replace(step, voices=model.voices)


def _is_single(*steps: Step) -> bool:
    """Whether each is one fretted note."""
    return all(len(step.voices) == 1 and step.frets[0] != "x" for step in steps)
