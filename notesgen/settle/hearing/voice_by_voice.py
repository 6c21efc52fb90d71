"""A stroke that is told already, and whose voices are then told one by one.

"Power chord at 3 on the low E, so that's 5 on the A and 5 on the D" tells nothing new. Where a stroke moved
by its first fret, "move the shape up to 7 on the A and 10 on the D", the others are told behind it.
"""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.kept import SWAPS
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

NEXT_TO = 5  # items between the first fret of a moved stroke and the next: "on the fifth string and"


def takes(telling: Telling, said: Instruction, fret: Fret, told: tuple[Strings, ...]) -> bool:
    """Whether the fret is that of a voice of the stroke told last, so that it is no note of its own."""
    last = telling.last()
    if (
        last is None
        or len(last.voices) < 2
        or len(told) != 1
        or telling.items[said.start].before >= Break.HARD
    ):
        return False
    at = next((at for at, one in enumerate(last.voices) if one.named and one.named == told[0]), None)
    if at is None or "x" in (fret, *last.frets):
        return False
    alike = last.voices[at].fret == fret
    if not (alike and _spells_out(telling, said, last)) and not _moves_too(telling, said, last, alike):
        return False
    voices = (*last.voices[:at], replace(last.voices[at], fret=fret), *last.voices[at + 1 :])
    telling.change_last(voices=voices, end=said.end)
    return True


def _spells_out(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether words that sum up lead to the fret, and it is the one that was told: "so that's 5 on the A"."""
    words, spoken = telling.words, telling.said_between(last.start, said.end)
    summed = spoken & {*words.summing_up, *words.so_that}
    return bool(summed) and not spoken & {*words.moving_on, *words.striking}


def _moves_too(telling: Telling, said: Instruction, last: Step, alike: bool) -> bool:
    """Whether the stroke was told by one fret, and this joins: "same with 12 on the A and 14 on the D"."""
    before, link = telling.preceding, telling.said_between(last.end, said.start + 1)
    swapped = before is not None and before.text("side") == SWAPS and before.end == said.start
    joined = bool(link & {*telling.words.joining}) and not link & {*telling.words.moving_on}
    return joined and said.start - last.end <= NEXT_TO and (swapped or (alike and last.origin == "derived"))


def introduces(telling: Telling, said: Instruction) -> bool:
    """Whether "then another one" is told right behind it: "another one, 8 on the A and 10 on the D"."""
    last, coming = telling.last(), telling.coming
    if last is None or coming is None or len(last.voices) < 2 or coming.start - said.end > 1:
        return False
    strings, fret = telling.strings_of(coming), coming.whole("fret")
    return fret is not None and any(
        voice.named in strings[:1] and voice.fret != fret for voice in last.voices
    )
