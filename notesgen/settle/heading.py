"""Which way the talk crosses the strings, where "the next string" leaves it open.

A run goes on as it went: over the strings in one direction, and on one string up towards the thinner one
or down towards the thicker. (Common practice, no source.)
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from notesgen.settle.step import Step, Strings

REACH = 16  # notes back in which a direction is looked for


def heading(steps: Sequence[Step], at: int) -> int:
    """1 towards the thick strings, -1 towards the thin ones, 0 when the notes before do not show it."""
    run: list[int] = []
    string = _string(steps[at - 1]) if at else ()
    for step in reversed(steps[max(0, at - REACH) : at]):
        named = _string(step)
        if named and string and named != string:
            return 1 if string[0] > named[0] else -1
        string = string or named
        if step.section != steps[at].section:
            break
        fret = step.frets[0]
        if isinstance(fret, int):
            run.append(fret)
    leaps = [before - after for after, before in pairwise(run)]
    if not leaps or not any(leaps):
        return 0
    if all(leap >= 0 for leap in leaps):
        return 1
    return -1 if all(leap <= 0 for leap in leaps) else 0


def _string(step: Step) -> Strings:
    """The one string named for a single note; () where there is none."""
    named = step.voices[0].named or step.before
    return named if len(step.voices) == 1 and len(named) == 1 else ()
