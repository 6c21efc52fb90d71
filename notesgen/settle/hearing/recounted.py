"""A count put right by a bare number: "you play that three times. Sorry, four. Four times."."""

from __future__ import annotations

from itertools import islice

from msgspec.structs import replace

from notesgen.settle.hearing.counts import strike_again, strokes
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.told import read_count
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

COUNTS = frozenset({"count", "repeat"})
AT_ONCE = 2  # items between the count, the correction and the number: "three times, ah, sorry"


def puts_count_right(telling: Telling, said: Instruction) -> bool:
    """Whether the correction is followed by another number for the count before it, which then holds."""
    before, number = telling.preceding, telling.coming
    if before is None or number is None or not _is_of_count(telling, before, said, number):
        return False
    times, _ = read_count(str(number.whole("fret")))
    loop = telling.loops[-1] if telling.loops else None
    if loop is not None and before.kind == "repeat" and loop.last == len(telling.steps) - 1:
        telling.loops[-1] = replace(loop, times=times, open="")
    else:
        del telling.steps[len(telling.steps) - max(0, strokes(telling) - times) :]
        strike_again(telling, times, "")
    telling.not_played_until = max(one.end for one in (number, *_said_over(telling, number, times)))
    return True


def _is_of_count(telling: Telling, before: Instruction, said: Instruction, number: Instruction) -> bool:
    """Whether a bare number stands where only a count can: it is said over as one, the count before it was
    denied ("not three, four"), or it speaks of a passage.

    Behind the strokes of one note it may as well be the note's own fret: "8, twice, sorry, 7".
    """
    if before.kind not in COUNTS or said.start - before.end > AT_ONCE or number.start - said.end > AT_ONCE:
        return False
    if number.kind != "note" or number.all("string") or number.end - number.start != 1 or not telling.steps:
        return False
    times = number.whole("fret")
    ends = number.end >= len(telling.items) or telling.items[number.end].before >= Break.HARD
    denied = said.whole("what") == read_count(before.text("count"))[0]
    replaced = ends and (denied or before.kind == "repeat")
    return bool(times and (replaced or _said_over(telling, number, times)))


def _said_over(telling: Telling, number: Instruction, times: int) -> list[Instruction]:
    """The same count once more, in words that name it: "four. Four times"."""
    behind = (one for one in telling.following if one.start >= number.end)
    return [one for one in islice(behind, 1) if _is_count(one, times) and one.start - number.end <= AT_ONCE]


def _is_count(said: Instruction, times: int) -> bool:
    return said.kind in COUNTS and read_count(said.text("count"))[0] == times
