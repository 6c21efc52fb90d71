"""Two strings that sing as one, told voice by voice: "soprano six, alto seven", "the E at 5, the G at 5"."""

from __future__ import annotations

from itertools import pairwise

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing import abreast
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction

SAID_BEFORE = 4  # items in front of a fret among which its voice is named
ONE_STROKE = 7  # items between the first voice of a stroke and the second


def by_role(telling: Telling, said: Instruction, pair: tuple[Strings, ...]) -> tuple[Strings, ...]:
    """The string of the voice, the higher or the lower, that is named in front of the fret; or ()."""
    strings = sorted(one[0] for one in pair if len(one) == 1)
    if len(pair) != 2 or len(set(strings)) != 2 or not said.all("fret"):
        return ()
    since = telling.preceding.end if telling.preceding is not None else 0
    start = max(since, slot_of(said, "fret").start - SAID_BEFORE)
    words = [item.text for item in telling.items[start : slot_of(said, "fret").start]]
    sides = {*telling.words.upper_side, *telling.words.lower_side}
    voices = {*telling.words.upper_voice, *telling.words.lower_voice}
    for before, word in reversed(list(pairwise(["", *words]))):
        if word in voices or (word in sides and before in telling.words.article):
            upper = word in {*telling.words.upper_voice, *telling.words.upper_side}
            return ((strings[0] if upper else strings[1],),)
    return ()


def answers(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Whether the fret is the second voice of a stroke of which the first was told just before; joins it."""
    last = telling.last()
    if last is None or len(last.voices) > 1 or len(strings) != 1 or not is_open(telling, said, last):
        return False
    one = last.voices[0].named or last.before
    row = abreast.announced(telling, said)
    ways = (row, row[::-1]) if len(row) == 2 else ()
    fits = [(a, b) for a, b in ways if {*one} & {*a} and {*strings[0]} & {*b}]
    if not fits:
        return False
    (here, there), first = fits[0], last.voices[0]
    telling.change_last(voices=(replace(first, named=here), Voice(fret, there)), end=said.end)
    telling.pair_open = -1
    telling.fold_retold()
    return True


def is_open(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether the stroke told last may have a second voice: it is close, and not said to be alone."""
    words = telling.words
    between = telling.said_between(last.end, slot_of(said, "fret").start)
    told = telling.said_between(last.start, last.end)
    if between & {*words.moving_on, *words.apart} or told & {*words.apart}:
        return False
    plain = last.how == "pick" and last.frets[0] != "x" and not last.again
    return plain and slot_of(said, "fret").start - last.end <= ONE_STROKE and telling.near(said, 1)
