"""A string that rings open under the other: "the E is open the whole time, so nine with the open"."""

from __future__ import annotations

from itertools import pairwise

from notesgen.lesson.model import Fret
from notesgen.settle.hearing import abreast
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings, Voice
from notesgen.speech.instructions import Instruction

SAID_WITHIN = 8  # items behind the string within which it is said to ring on
TOLD_WITHIN = 40  # ... within which a note is struck with it
NEXT_TO = 3  # items between a fret and the open string that is struck with it


def rings_on(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether the words only say that a string rings open under all that comes; remembers it."""
    if frets != [0] or len(strings) != 1:
        return False
    after = telling.said_between(said.start, said.end + SAID_WITHIN) & {*telling.words.lasting}
    if not after or not _is_struck_later(telling, said):
        return False
    row = abreast.in_force(telling, said) or _named(telling)
    fits = [one for one in row if {*one} & {*strings[0]}]
    telling.drone, telling.drone_at = fits[0] if fits else strings[0], said.start
    others = tuple(one for one in row if one not in fits)
    if len(others) == 1 and fits:
        abreast.announce(telling, (*others, telling.drone), said.start)
    return True


def joins(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Whether the open string rings with the note just told: "nine with the open"."""
    last = telling.last()
    if last is None or fret != 0 or strings or telling.drone_at < 0 or telling.drone_at > last.start:
        return False
    between = telling.said_between(last.end, slot_of(said, "fret").start)
    near = said.start - last.end <= NEXT_TO and bool(between & {*telling.words.together_with})
    section = telling.sections[-1].end <= telling.drone_at
    if not near or not section or len(last.voices) > 1 or {*last.voices[0].named} & {*telling.drone}:
        return False
    telling.change_last(voices=(last.voices[0], Voice(0, telling.drone)), end=said.end)
    return True


def _named(telling: Telling) -> tuple[Strings, ...]:
    """The strings named last, where they were two or more."""
    naming = telling.namings[-1] if telling.namings else None
    return naming.strings if naming is not None and len(naming.strings) > 1 else ()


def _is_struck_later(telling: Telling, said: Instruction) -> bool:
    """Whether a note with "the open" is told soon."""
    light = telling.words.article
    words = [i.text for i in telling.items[said.end : said.end + TOLD_WITHIN] if i.text not in light]
    links = telling.words.together_with
    return any(one in links and other in telling.words.open for one, other in pairwise(words))
