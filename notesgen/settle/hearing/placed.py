"""Fingers put down and only then played: the putting down adds no notes of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from msgspec import Struct

from notesgen.lesson.model import Fret
from notesgen.settle.step import Step, Voice

A_SHAPE = 2  # fingers put down from which a shape is held
REACH = 3  # how many notes further the playing may begin, for each finger put down


class Grip(Struct, frozen=True):
    """What is held from item `at` on: the fret of each string. `chord` tells that it was named as a chord.

    `name` is that of the chord whose usual shape was taken; `opens` tells that fingers were put down one by
    one, so that the strings they leave are open.
    """

    frets: Mapping[int, Fret] = {}
    at: int = -1
    chord: bool = False
    name: str = ""
    opens: bool = False


def grip_of(down: Sequence[Step]) -> Grip:
    """What fingers hold that were put down one by one on strings of their own; nothing where few were."""
    voices = [voice for step in down for voice in step.voices if len(voice.named) == 1]
    fretted = {voice.named[0]: voice.fret for voice in voices}
    return Grip(fretted, down[-1].end, True, opens=True) if len(fretted) >= A_SHAPE else Grip()


def held(steps: Sequence[Step]) -> frozenset[int]:
    """The places of frets that are only held: put down, and told again as played right after."""
    found: set[int] = set()
    at = 0
    for down, run in groupby(steps, key=_goes_down):
        group = list(run)
        after = steps[at + len(group) : at + (1 + REACH) * len(group)]
        struck = [step for step in after if step.stroke or step.by_finger]
        if down and _played_after(group, after if down == "placed" else struck):
            found.update(range(at, at + len(group)))
        at += len(group)
    return frozenset(found)


def _goes_down(step: Step) -> str:
    """Whether a finger goes down, or was only named for the fret: "" when neither."""
    return "placed" if step.placed else "fingered" if step.fingered else ""


def _played_after(placed: list[Step], after: Sequence[Step]) -> bool:
    """Whether at least half of the placed strings and frets come again; legato among them is playing."""
    if any(step.how != "pick" for step in placed):
        return False
    down = [voice for step in placed for voice in step.voices]
    played = [voice for step in after if not step.placed for voice in step.voices]
    found = sum(any(_same_place(one, other) for other in played) for one in down)
    return 2 * found >= len(down)


def _same_place(down: Voice, played: Voice) -> bool:
    """Whether the fret is the same, on the same string as far as strings were named."""
    named = not down.named or not played.named or down.named == played.named
    return named and down.fret == played.fret
