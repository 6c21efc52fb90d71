"""A chord that moved, told over fret by fret: "down two frets, so five, five and six"."""

from __future__ import annotations

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.power import row_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings
from notesgen.speech.instructions import Instruction

AT_ONCE = 2  # items between the move and the first of its frets
CHORD = 3  # voices of a chord; those of a pair are heard together


def spells_moved(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> bool:
    """Whether the frets are those of the chord that just moved, in the order of its strings."""
    if strings or not frets:
        return False
    if said.start < telling.spelled_until:
        return True
    last = telling.last()
    if last is None or last.origin != "derived" or last.copied or len(last.voices) < CHORD:
        return False
    anew = {*telling.words.moving_on, *telling.words.again}
    if said.start - last.end > AT_ONCE or telling.said_between(last.end, said.start + 1) & anew:
        return False
    row = row_of(telling, said, frets, len(last.voices))
    if tuple(fret for fret, _ in row) not in (last.frets, last.frets[::-1]):
        return False
    telling.spelled_until = row[-1][1]
    telling.change_last(end=row[-1][1], retold=last.frets)
    return True
