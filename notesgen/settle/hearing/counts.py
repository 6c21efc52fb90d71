"""How often: strokes of the last note, and passages played again."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.told import Loop, read_count
from notesgen.speech.instructions import Instruction

NEAR = 2  # sentences back to which "three times" reaches
AT_ONCE = 2  # items after a note within which a count without a verb speaks of it
A_RUN = 3  # notes from which "8 7 9, three times" speaks of the run, not of its last note


def count(telling: Telling, said: Instruction) -> None:
    """The last note is struck so often."""
    times, unsure = read_count(said.text("count"))
    last = telling.last()
    if last is None or not telling.near(said, NEAR):
        return
    verbs = {*telling.words.striking, *telling.words.struck}
    if not telling.said_between(said.start, said.end) & verbs:
        if said.start - last.end > AT_ONCE:
            return
        if telling.trailing() >= A_RUN and not last.voices[0].named:
            repeat(telling, said)
            return
    strike_again(telling, times, unsure)


def again(telling: Telling, said: Instruction) -> None:
    """The last note once more."""
    last = telling.last()
    if last and telling.near(said, NEAR):
        telling.steps.append(replace(last, corrected="", again=True, start=said.start, end=said.end))


def repeat(telling: Telling, said: Instruction) -> None:
    """The passage of the section, or since the last repeat, is played so often; a lone pair is struck."""
    times, unsure = read_count(said.text("count"))
    last = telling.last()
    alone = last and sum(step.section == len(telling.sections) for step in telling.steps) == 1
    if last and (len(last.voices) > 1 or alone) and last.sentence in _just_before(telling, said):
        strike_again(telling, times, unsure)
        return
    first = telling.loops[-1].last + 1 if telling.loops else 0
    section = [
        at for at, step in enumerate(telling.steps) if step.section == len(telling.sections) and at >= first
    ]
    if section and times > 1:
        telling.seams.append(said.start)
        telling.loops.append(Loop(section[0], section[-1], times, unsure))


def strike_again(telling: Telling, times: int, unsure: str) -> None:
    """The last note, so often in all."""
    if unsure:
        telling.change_last(unsure_count=unsure)
    for _ in range(times - strokes(telling)):
        telling.steps.append(replace(telling.steps[-1], corrected="", again=True))


def _just_before(telling: Telling, said: Instruction) -> range:
    """The sentence of the words, and the two before it."""
    sentence = telling.sentences.of(said.start)
    return range(sentence - NEAR, sentence + 1)


def strokes(telling: Telling) -> int:
    """How often the last note has been told in a row by now."""
    last = telling.steps[-1]
    alike = [s.again and (s.frets, s.how) == (last.frets, last.how) for s in reversed(telling.steps)]
    return 1 + (alike.index(False) if False in alike else len(alike) - 1)
