"""What sounds when a finger comes off and no fret is said: the finger held behind it, or the open string."""

from __future__ import annotations

from msgspec import Struct

from notesgen.settle.hearing.hand import SPAN
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.hearing.voices import melody_of
from notesgen.settle.step import Step

NOTES_BACK = 4  # notes within which one told on the same string may still be held
OPEN_HAND = 4  # the highest place of the hand at which open strings are the usual end of a pull-off


class Underneath(Struct, frozen=True):
    """The fret that sounds; `other` is the next likely one where the words leave both open."""

    fret: int
    other: int | None = None


def underneath(telling: Telling) -> Underneath | None:
    """What the last note is pulled off to; None where it cannot be pulled off."""
    last, before = telling.last(), telling.last(2)
    if last is not None and len(last.voices) > 1:
        last = melody_of(last, telling.names.count)
    if last is None or last.frets[0] in ("x", 0):
        return None
    fret = int(last.frets[0])
    if before and last.how == "hammer-on" and before.frets[0] != "x" and int(before.frets[0]) < fret:
        return Underneath(int(before.frets[0]))
    strings = last.voices[0].named or last.before
    held = telling.fretting.behind(fret, strings)
    if held is not None:
        return Underneath(held)
    told = _told_behind(telling, last, fret)
    if told is not None:
        return Underneath(told, None if told == 0 else 0)
    base = telling.fretting.base
    if base is not None and telling.fretting.declared and OPEN_HAND < base < fret <= base + SPAN:
        return Underneath(base, 0)
    return Underneath(0)


def _told_behind(telling: Telling, last: Step, fret: int) -> int | None:
    """The fret told just before on the same string that may still be held, or the string told open."""
    for step in reversed(telling.steps[-NOTES_BACK - 1 : -1]):
        if step.section != last.section or len(step.voices) > 1 or step.frets[0] == "x":
            return None
        if _on_one_string(step, last):
            told = int(step.frets[0])
            return told if told == 0 or 0 < fret - told <= SPAN else None
    return None


def _on_one_string(one: Step, other: Step) -> bool:
    """Whether both are on one string, as far as strings were said."""
    here, there = (step.voices[0].named or step.before for step in (one, other))
    return bool(set(here) & set(there)) if here and there else not here and not there
