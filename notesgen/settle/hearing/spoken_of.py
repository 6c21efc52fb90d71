"""Strings only spoken of: where a finger rests or will be needed, and what rings or is damped there.

"Your ring finger stays on the G so it's ready", "the A string's just getting deadened by the tip": the words
name a string, and the frets that follow mostly go on where they were.
"""

from __future__ import annotations

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

LONGEST_CLAUSE = 12  # items to either side of a string within which its clause is looked at


def is_only_spoken_of(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether the string's own clause tells of the hand or of the sound, and no fret stands in it behind.

    A hand that lies on the string damps it where damped strokes are told next.
    """
    if telling.last() is None or not strings or (telling.coming and telling.coming.kind in ("dead", "count")):
        return False
    words, behind = telling.words, _clause_behind(telling, said.end)
    if any(text in telling.numbers or text in words.open for text in behind):
        return False
    if any(text in words.sounding_on for text in behind):
        return True
    before = _clause_before(telling, said.start)
    palm = any(text in words.palm for text in before)
    if not palm and not any(text in words.fingering for text in before):
        return False
    rests = any(text in words.resting for text in before) and (palm or not _fret_follows(telling, said.end))
    return rests or any(text in words.purposes for text in behind)


def _fret_follows(telling: Telling, end: int) -> bool:
    """Whether a fret is told at once behind the string, as for the finger that was put there: "the B, 7"."""
    return any(item.text in telling.numbers for item in telling.items[end : end + 1])


def _clause_behind(telling: Telling, end: int) -> list[str]:
    """The words from the string to the end of its clause."""
    found: list[str] = []
    for item in telling.items[end : end + LONGEST_CLAUSE]:
        if item.before > Break.NONE or item.text in telling.words.joining:
            break
        found.append(item.text)
    return found


def _clause_before(telling: Telling, start: int) -> list[str]:
    """The words of the clause that lead to the string, the nearest first."""
    found: list[str] = []
    for at in range(start, max(0, start - LONGEST_CLAUSE), -1):
        if telling.items[at].before > Break.NONE or telling.items[at - 1].text in telling.words.joining:
            break
        found.append(telling.items[at - 1].text)
    return found
