"""A chord told by its frets alone, from its thickest string to its thinnest: "3, 2, open, open, open, 3"."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Voice
from notesgen.speech.instructions import Instruction

FEWEST = 4  # frets from which bare ones in a row are those of a chord, where it is struck as one
HAND = 4  # frets that the hand spans: common practice, no source
NEAR = 6  # items between the last fret and the words that strike the chord
DEAD = "x"  # how a string that is not struck is told


def strike_in_order(telling: Telling, said: Instruction) -> bool:
    """Makes one stroke of the bare frets told just before the words; says whether there were such."""
    run = _bare_run(telling)
    if not run or said.start - run[-1].end > NEAR:
        return False
    lowest = _lowest_string(telling, run)
    fretted = [int(step.frets[0]) for step in run if step.frets[0] not in (0, DEAD)]
    if lowest != len(run) or not fretted or max(fretted) - min(fretted) > HAND:
        return False
    voices = [Voice(step.frets[0], (lowest - at,)) for at, step in enumerate(run)]
    one = replace(run[0], voices=tuple(voices), before=(), end=said.end)
    telling.steps[-len(run) :] = [one]
    return True


def _bare_run(telling: Telling) -> list[Step]:
    """The last frets, told one right behind the other without a string, but for that of the first."""
    run: list[Step] = []
    for step in reversed(telling.steps):
        plain = len(step.voices) == 1 and step.how == "pick" and not step.stroke and not step.again
        if not plain or (run and step.end != run[0].start and step.start != run[0].start):
            break
        run.insert(0, step)
        if step.voices[0].named:
            break
    return run if len(run) >= FEWEST else []


def _lowest_string(telling: Telling, run: list[Step]) -> int:
    """The string of the first fret: the one that is named, else the thickest that is not left out.

    With fewer frets than strings the chord lies on the thin ones; 0 where the words say otherwise.
    """
    named = run[0].voices[0].named or run[0].before
    if named:
        return named[0] if len(named) == 1 else 0
    left_out = 0
    while telling.said_between(run[0].start - left_out - 1, run[0].start - left_out) == {DEAD}:
        left_out += 1
    return telling.names.count - left_out if left_out else len(run)
