"""A passage carried to other strings as a whole: "the same on the next pair of strings, the D and the G"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from msgspec.structs import replace

from notesgen.settle.hearing import moved
from notesgen.settle.hearing.same import add, meant
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.hearing.told_out import is_told_out
from notesgen.settle.step import Step, Strings
from notesgen.speech.instructions import Instruction

ACROSS = "across"  # the slot "label" of a passage that goes to as many other strings


def carry(telling: Telling, said: Instruction) -> bool:
    """Tells the passage over on the strings named, unless it is told out next; says whether the words do."""
    strings = telling.strings_of(said)
    run = _tail(meant(telling, said), len(strings)) if len(strings) > 1 else []
    if said.text("label") != ACROSS and not (
        said.text("label") is None and _changes_strings(run, len(strings))
    ):
        return False
    copies = onto(run, strings)
    if copies is None:
        telling.unwritten.append(said)
    elif not is_told_out(telling, said, copies):
        add(telling, said, copies)
    return True


def onto(run: Sequence[Step], strings: Sequence[Strings]) -> list[Step] | None:
    """The passage with the strings named in place of its own, thick for thick; None where they do not fit.

    One on a single string comes on each of those named, one after the other.
    """
    if not run or any(len(voice.named) != 1 for step in run for voice in step.voices):
        return None
    own = sorted({voice.named[0] for step in run for voice in step.voices})
    if len(own) == 1:
        return [step for string in strings for step in moved.on_string(run, string)]
    ways = [sorted(way) for way in product(*strings) if len({*way}) == len(own) == len(strings)]
    if not ways:
        return None
    off = [abs(way[-1] - way[0] - (own[-1] - own[0])) for way in ways]
    place = dict(zip(own, ways[off.index(min(off))], strict=True))
    return [
        replace(
            step,
            voices=tuple(replace(voice, named=(place[voice.named[0]],)) for voice in step.voices),
            by=None,
        )
        for step in run
    ]


def _changes_strings(run: Sequence[Step], count: int) -> bool:
    """Whether the passage is on so many strings and leaves the last for none: it is no list on one string."""
    strings = [step.voices[0].named for step in run]
    return len({*strings}) == count and len(strings) > 1 and strings[-1] != strings[-2]


def _tail(run: Sequence[Step], count: int) -> list[Step]:
    """The last notes of the passage that lie on so many strings."""
    tail: list[Step] = []
    for step in reversed(run):
        strings = {named for one in (step, *tail) for voice in one.voices for named in voice.named}
        if len(strings) > count:
            break
        tail.insert(0, step)
    return tail
