"""Strokes by the name that the teacher has for them: "I call that a knock", and then "three knocks"."""

from __future__ import annotations

from typing import cast

from notesgen.lesson.model import Mark
from notesgen.settle.hearing.damped import SUNG
from notesgen.settle.hearing.slots import marks_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Voice
from notesgen.speech.instructions import Instruction

CALLED = "called"  # the slot "side" of words that give strokes a name
DEAD = "dead"  # what a name stands for whose strokes have no pitch
PALM = "palm-mute"
NEAR = 1  # sentences back to which "I call that" points


def call(telling: Telling, said: Instruction) -> None:
    """The name stands for what was just told or announced: muted with the palm, or dead."""
    name = _any_name(telling, said.start, said.end)
    meant, last = said.text("mark"), telling.last()
    if meant is None and telling.next_marks:
        meant, telling.next_marks = telling.next_marks[0], ()
    elif meant is None and last is not None and telling.near(said, NEAR):
        meant = DEAD if "x" in last.frets else next(iter(last.marks), None)
    if name and meant:
        telling.called[name] = meant


def marks(telling: Telling, said: Instruction) -> tuple[Mark, ...]:
    """The marks that are said, and those that the strokes have by their name."""
    meant = telling.called.get(_name(telling, said.start, said.end), "")
    more = () if meant in ("", DEAD) else (cast(Mark, meant),)
    return tuple(dict.fromkeys((*marks_of(said), *more)))


def strikes(telling: Telling, said: Instruction, times: int, unsure: str) -> bool:
    """Whether "two knocks" strikes what was told by that name before, and not the last note again.

    Strokes that are only sung, "chug chug chug", are no such name: they sum up what was struck.
    """
    name = _name(telling, said.start, said.end)
    if not name or said.text("side") == SUNG or not _is_apart(telling, said):
        return False
    model = _told_as(telling, said, name)
    if model is None or model is telling.last():
        return False
    voices = [Voice(voice.fret, voice.named or model.before) for voice in model.voices]
    for at in range(times):
        telling.add(said, voices, marks=model.marks, unsure_count=unsure, again=at > 0, origin="derived")
    return True


def _is_apart(telling: Telling, said: Instruction) -> bool:
    """Whether the strokes are told by themselves: in a sentence of their own, or as what comes then."""
    last, words = telling.last(), telling.words
    if last is None or telling.said_between(last.end, said.end) & {*words.moving_on, *words.again}:
        return last is not None
    return last.sentence != telling.sentences.of(said.start)


def _told_as(telling: Telling, said: Instruction, name: str) -> Step | None:
    """The last stroke told by the name; "again" takes any that were muted or dead."""
    meant = telling.called.get(name)
    again = bool(telling.said_between(said.start, said.end + 1) & set(telling.words.again))
    for step in reversed(telling.steps):
        called = _name(telling, step.start, step.end) == name
        muted = DEAD if "x" in step.frets else PALM if PALM in step.marks else ""
        if called or (muted and (again or muted == meant)):
            return step
    return None


def _name(telling: Telling, start: int, end: int) -> str:
    """The name of strokes among the words, in the singular; a verb is none: "knock it three times"."""
    done_to_it = bool(telling.said_between(start, end) & set(telling.words.struck))
    return _any_name(telling, start, end, plural=done_to_it)


def _any_name(telling: Telling, start: int, end: int, *, plural: bool = False) -> str:
    """The first name of strokes in the list that is among the words, in the plural only if so asked."""
    said = telling.said_between(start, end)
    forms = (
        (name.removesuffix("s"), {name} if plural else {name, name.removesuffix("s")})
        for name in telling.words.strokes
    )
    return next((single for single, either in forms if said & either), "")
