"""What was told one by one is struck at once."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.grips import strike
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Voice
from notesgen.speech.instructions import Instruction

NEAR = 2  # sentences back to which "both of them" reaches
MOST = 6  # voices that one stroke may join


def together(telling: Telling, said: Instruction) -> None:
    """Joins the steps just told into one, when they lie on different strings."""
    last = telling.last()
    if telling.grip.frets and (last is None or last.start < telling.grip.at):
        strike(telling, said)
        return
    if _comes_first(telling, said, last):
        telling.chord_at, telling.chord_voices = said.end, 2
        return
    if last is None or len(last.voices) > 1:
        telling.change_last(placed=False)
        return
    joined = _to_join(telling, said)
    strings = {voice.named for step in joined for voice in step.voices if voice.named}
    if len(joined) < 2 or len(strings) < len(joined) or last.sentence - joined[0].sentence > NEAR:
        return
    marks = tuple(dict.fromkeys(mark for step in joined for mark in step.marks))
    bent = tuple(_own_bend(step, voice) for step in joined for voice in step.voices)
    del telling.steps[-len(joined) :]
    end = joined[-1].end
    one = replace(joined[0], voices=bent, end=end, marks=marks, how="pick", bend=None, placed=False)
    telling.steps.append(one)


def _comes_first(telling: Telling, said: Instruction, last: Step | None) -> bool:
    """Whether "pinch" opens the sentence, so that the notes to pinch come after it."""
    words = telling.said_between(said.start, said.end)
    if not words & set(telling.words.pinching) or words & set(telling.words.struck):
        return False
    return last is None or last.sentence < telling.sentences.of(said.start)


def _to_join(telling: Telling, said: Instruction) -> list[Step]:
    """The last single notes: two, or three where three are spoken of; at "all in one" all of the sentence."""
    words, last = telling.said_between(said.start, said.end), telling.steps[-1]
    every = bool(words & set(telling.words.every))
    most = MOST if every else 3 if words & set(telling.words.three) else 2
    joined: list[Step] = []
    for step in reversed(telling.steps[-MOST:]):
        taken = {string for one in joined for string in one.voices[0].named}
        if len(joined) == most or len(step.voices) > 1:
            break
        if every and (step.sentence != last.sentence or taken & set(step.voices[0].named)):
            break
        joined.insert(0, step)
    return joined


def _own_bend(step: Step, voice: Voice) -> Voice:
    return replace(voice, how=step.how, bend=step.bend) if step.how == "bend" else voice
