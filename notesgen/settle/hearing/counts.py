"""How often: strokes of the last note, and passages played again."""

from __future__ import annotations

from itertools import pairwise, takewhile

from msgspec.structs import replace

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.strings import SAME
from notesgen.settle.told import Loop, read_count
from notesgen.speech.instructions import Instruction

BRIEF = "brief"  # the slot "side" of a bare "and again"
NEAR = 2  # sentences back to which "three times" reaches
FAR = 12  # ... to which "it goes four times" reaches
AT_ONCE = 2  # items after a note within which a count without a verb speaks of it
PLAYED = 5.0  # seconds without talk in which the teacher plays what was taught
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
    """The last note once more; "and again" only right behind a note on a string that was named."""
    last = telling.last()
    same_breath = last is not None and said.start == last.end and telling.near(said, 0)
    if said.text("side") == BRIEF and not (last and same_breath and last.voices[0].named):
        return
    if last and telling.near(said, NEAR):
        telling.steps.append(replace(last, corrected="", again=True, by=SAME, start=said.start, end=said.end))


def repeat(telling: Telling, said: Instruction) -> None:
    """A passage is played so often in all; a lone note or pair is struck so often."""
    times, unsure = read_count(said.text("count"))
    whole = bool(telling.said_between(said.start, said.end) & set(telling.words.whole))
    passage = _passage(telling, whole)
    if not passage or not (whole or telling.near(said, FAR)):
        return
    if len(passage) == 1:
        strike_again(telling, times, unsure)
    elif times > 1:
        telling.seams.append(said.start)
        telling.loops.append(Loop(passage[0], passage[-1], times, unsure))


def _passage(telling: Telling, whole: bool) -> list[int]:
    """The places that "that" stands for: since the teacher last played, or since the heading."""
    first = telling.loops[-1].last + 1 if telling.loops else 0
    passage: list[int] = []
    for place in range(len(telling.steps) - 1, first - 1, -1):
        step = telling.steps[place]
        after = telling.steps[passage[0]] if passage else step
        if step.section != len(telling.sections):
            break
        if not whole and _played_between(telling, step.end, after.start):
            break
        passage.insert(0, place)
    return passage


def _played_between(telling: Telling, start: int, end: int) -> bool:
    """Whether the teacher played for a while between two items."""
    pairs = pairwise(telling.items[max(0, start - 1) : end + 1])
    return any(after.start - before.end >= PLAYED for before, after in pairs)


def strike_again(telling: Telling, times: int, unsure: str) -> None:
    """The last note, so often in all."""
    if unsure:
        telling.change_last(unsure_count=unsure)
    for _ in range(times - strokes(telling)):
        telling.steps.append(replace(telling.steps[-1], corrected="", again=True, by=SAME))


def strokes(telling: Telling) -> int:
    """How often the last note has been told in a row by now."""
    last = telling.steps[-1]
    again = takewhile(
        lambda step: step.again and (step.frets, step.how) == (last.frets, last.how), reversed(telling.steps)
    )
    return min(1 + sum(1 for _ in again), len(telling.steps))
