"""A chord spelled string by string, all of which is struck: "... 7 on the D, 5 on the G. Hit it twice"."""

from __future__ import annotations

from itertools import takewhile

from notesgen.settle.hearing.strums import strum
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

LEAST = 3  # strings from which it is no pair of notes
NEXT_TO = 3  # items behind its last string within which it is struck


def gather_spelled(telling: Telling, said: Instruction) -> None:
    """Makes one stroke of the strings told one by one, where they were called a chord and "it" is struck."""
    last, verb = telling.last(), telling.said_between(said.start, said.end) & {*telling.words.striking}
    if last is None or not verb or not telling.near(said, 1) or said.start - last.end > NEXT_TO:
        return
    run = [*takewhile(lambda step: _is_a_string(step, last), reversed(telling.steps))]
    strings = {step.voices[0].named for step in run}
    if len(run) >= LEAST and len(strings) == len(run) and _is_called_chord(telling, run[-1]):
        strum(telling, said)


def _is_a_string(step: Step, last: Step) -> bool:
    single = len(step.voices) == 1 and len(step.voices[0].named) == 1 and step.how == "pick"
    return single and not step.again and not step.stroke and step.sentence == last.sentence


def _is_called_chord(telling: Telling, first: Step) -> bool:
    """Whether a chord or shape is spoken of in front of its first string, in this sentence or the last."""
    before = telling.sentences.start(max(0, first.sentence - 1))
    return bool(telling.said_between(before, first.start) & {*telling.words.shapes})
