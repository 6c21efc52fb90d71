"""A slide told by how far it goes: "slide it up two", where no fret 2 lies above the note."""

from __future__ import annotations

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.telling import Telling

FEW = 3  # frets that are told as a distance down, where the fret of that number lies far below


def reached(telling: Telling, told_at: int, start: Fret, fret: Fret) -> Fret:
    """The fret to which a slide from `start` goes; the number for it stands at item `told_at`.

    It is a distance only behind a bare "up" that the fret of that number contradicts, or behind a bare
    "down" where that fret lies farther below than the distance leads.
    """
    if "x" in (start, fret) or not told_at:
        return fret
    begun, number, way = int(start), int(fret), telling.items[told_at - 1].text
    if way in telling.words.rising and number <= begun:
        return begun + number
    if way in telling.words.falling and 0 < number <= FEW and begun - number > number:
        return begun - number
    return fret
