"""Notes told by their letters whose places are told right behind: "the F and the E flat, six and four"."""

from __future__ import annotations

from itertools import takewhile

from msgspec.structs import replace

from notesgen.settle.step import Step
from notesgen.settle.strings import StringNames

PLACED_WITHIN = 4  # items behind the letters within which the first place is told, and behind it the next


def fold_letters(steps: list[Step], names: StringNames) -> None:
    """Takes back the letter whose place the last step tells: the first of the row that waits, or the last."""
    step = steps[-1]
    waiting = sum(1 for _ in takewhile(_waits, reversed(steps[:-1])))
    first = len(steps) - 1 - waiting
    if not waiting or len(step.voices) > 1 or step.origin != "said" or step.frets[0] == "x":
        return
    told = max(one.end for one in steps[max(0, first - 1) : -1])
    if step.start - told > PLACED_WITHIN:
        return
    if placed := _placed(step, steps[first], names):
        steps[first:] = [placed, *steps[first + 1 : -1]]
    elif placed := _placed(step, steps[-2], names):
        steps[-2:] = [placed]


def _waits(step: Step) -> bool:
    """Whether the note was told by its letter alone, and may still be told by its place."""
    return bool(step.letter) and step.origin == "derived" and len(step.voices) == 1


def _placed(step: Step, letter: Step, names: StringNames) -> Step | None:
    """The step where it tells the letter's place; if no string is named, near the one thought of."""
    voice, thought = step.voices[0], letter.voices[0].named
    strings = voice.named or range(1, names.count + 1)
    fitting = [string for string in strings if names.gives(letter.letter, string, int(voice.fret))]
    if not fitting:
        return None
    nearest = min(fitting, key=lambda string: abs(string - thought[0]) if thought else string)
    return replace(step, voices=(replace(voice, named=(nearest,)),), letter=letter.letter)
