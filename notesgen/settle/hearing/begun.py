"""Where the line began to which the words come back: "start on 7 ... and home to the first note"."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step

LED_WITHIN = 4  # items in front of a note within which it is said that the line begins there
LEAST = 2  # notes from where a line began to where it comes back


def begun(telling: Telling, told: Sequence[Step]) -> list[Step]:
    """What was told from the note on that was last said to be where it begins; all where none was."""
    for at in range(len(told) - LEAST, -1, -1):
        start, lead = told[at].start, told[at - 1].end if at else 0
        words = telling.said_between(max(lead, start - LED_WITHIN), start + 1)
        if words & {*telling.words.beginning}:
            return list(told[at:])
    return list(told)
