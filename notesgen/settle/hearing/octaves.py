"""Octaves: two strings an octave apart, struck as one, or in turn where thumb and fingers take turns."""

from __future__ import annotations

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction

NEAR = 14  # items within which the second note of an octave is told: fingers are named between
WIDEST = 4  # frets that the two notes lie apart at most


def octaves(telling: Telling, said: Instruction) -> None:
    """What this section teaches is octaves."""
    telling.octaves_in, telling.together_at = len(telling.sections), said.start


def completes(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Whether the fret is the other note of an octave just begun: then both are one stroke, or take turns."""
    last = telling.last()
    if telling.octaves_in != len(telling.sections) or last is None or len(strings) != 1:
        return False
    if said.start - last.end > NEAR or not _is_octave(telling, last, fret, strings[0]):
        return False
    first = last.voices[0]
    if telling.said_between(last.start - 2, said.end) & set(telling.words.taking_turns):
        telling.turns = (first, Voice(fret, strings[0]))
        return False
    telling.change_last(voices=(first, Voice(fret, strings[0])), end=said.end)
    return True


def turn(telling: Telling, frets: list[Fret]) -> Strings:
    """The string of a lone fret where two strings take turns: the second's where the shape says so.

    () where no strings take turns.
    """
    last = telling.last()
    if telling.octaves_in != len(telling.sections) or not telling.turns or len(frets) != 1 or not last:
        return ()
    one, other = telling.turns
    shape = int(other.fret) - int(one.fret)
    answers = last.voices[0].named == one.named and last.frets == (int(frets[0]) - shape,)
    return other.named if answers else one.named


def _is_octave(telling: Telling, last: Step, fret: Fret, strings: Strings) -> bool:
    """Whether the last step is one note, and this one bears its name on another string, within reach."""
    first = last.voices[0]
    if len(last.voices) != 1 or len(first.named) != 1 or len(strings) != 1 or strings == first.named:
        return False
    if first.fret == "x" or fret == "x" or abs(int(fret) - int(first.fret)) > WIDEST:
        return False
    return telling.names.bear_one_name((first.named[0], int(first.fret)), (strings[0], int(fret)))
