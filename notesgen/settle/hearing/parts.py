"""Notes called again by their place in what was told: the first, the last three, where the slide landed."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing import moved
from notesgen.settle.hearing.begun import begun
from notesgen.settle.hearing.called import strike_called
from notesgen.settle.hearing.numbered import strike_numbered
from notesgen.settle.hearing.numbered_parts import strike_part
from notesgen.settle.hearing.passages import passage
from notesgen.settle.hearing.recall import MEMORY, recall
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.slots import TELLS, frets_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

OPEN = "open"  # the slot "label" of a stretch whose length is left open: "that same tag"
SPELLED = 8  # items within which the notes that are meant are told after all
NUMBERED = "numbered"  # ... of a pair called by its number


def recall_part(telling: Telling, said: Instruction) -> None:
    """Strikes the part once more that the words call; asks about one that has no clear end."""
    if said.all("side"):
        strike_called(telling, said)
        return
    label = said.text("label")
    if said.all("part"):
        strike_part(telling, said)
        return
    if label == NUMBERED:
        strike_numbered(telling, said)
        return
    if (said.all("letter") or label) and (not telling.steps or _is_spelled(telling, said)):
        return
    if label is None:
        recall(telling, said)
        return
    called = _called(telling, said, label)
    if called:
        strike_over(telling, said, called)
    else:
        telling.unwritten.append(said)


def _called(telling: Telling, said: Instruction, label: str) -> list[Step]:
    """The steps of the part, by its label: where it began, its first or last few, the one in front ..."""
    told = [telling.steps[place] for place in passage(telling, whole=False)]
    count = said.whole("count") or 1
    match label:
        case "start":
            frets = tuple(frets_of(said, "fret"))
            line = begun(telling, told)
            return [_anew(step) for step in line if not frets or step.frets == frets][:1]
        case "chord":
            return [_anew(step) for step in told[-MEMORY:] if len(step.voices) > 1][-1:]
        case "first":
            last = telling.trailing()
            run = told[-last:] if last > count else told
            return run[:count] if len(run) > count else []
        case "last":
            return told[-count:] if len(told) >= count else []
        case "landed":
            return [_anew(step) for step in told[-MEMORY:] if step.how == said.text("how")][-1:]
        case "bend":
            return [step for step in told[-MEMORY:] if step.how == "bend"][-1:]
        case "before" | "pair before":
            return in_front(told, label != "before")
        case "one":
            first = [_anew(step) for step in told[-LOOK_BACK:] if step.frets == (1,)]
            return first[-1:] or in_front(told)
    return []


def in_front(told: list[Step], chords: bool = False) -> list[Step]:
    """The note in front of the last one, however often that was struck; of chords and pairs, the chord."""
    chords = chords or (bool(told) and len(told[-1].voices) > 1)
    settled = [step for step in moved.settled(told) if len(step.voices) > 1 or not chords]
    others = [step for step in settled if step.voices != settled[-1].voices]
    return [_anew(step) for step in others[-1:]]


def _anew(step: Step) -> Step:
    """The step picked: how it was reached before is not told over."""
    return replace(step, how="pick", bend=None, marks=())


def _is_spelled(telling: Telling, said: Instruction) -> bool:
    """Whether the notes that are meant are told at once, with no "then": "where we started, that 9"."""
    near = [one for one in telling.following if one.start - said.end <= SPELLED]
    tells = TELLS if said.all("letter") else (*TELLS, "finger")
    told = next((one for one in near if any(one.all(slot) for slot in tells)), None)
    if told is None or telling.said_between(said.end, told.start + 1) & set(telling.words.moving_on):
        return False
    return said.text("label") == OPEN or telling.sentences.of(told.start) == telling.sentences.of(said.start)
