"""The string of a note that the words come back to: "that 7", "back to the 7", "now the 7 again"."""

from __future__ import annotations

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step, Strings
from notesgen.speech.instructions import Instruction

CARRIED = 1  # sentences over which a string is carried from one note to the next


def string_of_that(telling: Telling, said: Instruction, frets: list[Fret]) -> Strings:
    """The string of the earlier note that a lone fret speaks of; () when it is new, or its string unknown."""
    last = telling.last()
    if last is None or len(frets) != 1 or telling.correcting is not None or not said.all("fret"):
        return ()
    if not _comes_back(telling, said):
        return ()
    if held := _in_pair(last, frets[0]):
        return held
    first = max(0, len(telling.steps) - LOOK_BACK)
    told = [
        at
        for at, step in enumerate(telling.steps[first:], first)
        if step.frets == tuple(frets) and step.section == last.section
    ]
    if not told:
        return ()
    here = held_by(telling, len(telling.steps) - 1)
    if telling.namings and telling.namings[-1].at > last.start:
        return ()
    strings = [held_by(telling, at) for at in told]
    if here in strings:  # it stays where it is: as surely as it was said
        return telling.steps[told[strings.index(here)]].voices[0].named
    return strings[-1]


def _in_pair(last: Step, fret: Fret) -> Strings:
    """The string of the one voice of the pair told last that lies at the fret."""
    fits = [voice for voice in last.voices if voice.fret == fret]
    return fits[0].named if len(last.voices) > 1 and len(fits) == 1 else ()


def held_by(telling: Telling, at: int) -> Strings:
    """The string of the step told in that place: named with it, or carried on from what was named before."""
    told = telling.steps[at]
    while at >= 0 and told.sentence - telling.steps[at].sentence <= CARRIED:
        told = telling.steps[at]
        if told.voices[0].named or told.before:
            return told.voices[0].named or told.before
        at -= 1
    return ()


def _comes_back(telling: Telling, said: Instruction) -> bool:
    """Whether the fret is told as one known: pointed at, gone back to, or "the 7 again"."""
    slot = slot_of(said, "fret")
    word = telling.items[slot.start].text
    if word in telling.words.pointing:
        return True
    if telling.said_between(said.start - 1, slot.start) & set(telling.words.going_back):
        return True
    definite = word in telling.words.article
    return definite and bool(telling.said_between(slot.end, slot.end + 1) & set(telling.words.again))
