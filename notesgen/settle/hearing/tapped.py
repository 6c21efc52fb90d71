"""Notes struck by the fretting side alone: taps and trills."""

from __future__ import annotations

from typing import Any

from notesgen.lesson.model import How
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Voice
from notesgen.speech.instructions import Instruction


def trill(telling: Telling, said: Instruction) -> None:
    """Two frets in alternation: one step that holds the other fret.

    "12 on the B, and you trill, 12 and 13" names the note first, and is one stroke.
    """
    last, frets = telling.last(), frets_of(said, "fret")
    if last and last.how == "pick" and list(last.frets) == frets and telling.near(said, 0) and not last.again:
        telling.change_last(how="trill", to=said.whole("to"))
        return
    _each(telling, said, "trill", to=said.whole("to"))


def tap(telling: Telling, said: Instruction) -> None:
    """A tapped fret."""
    _each(telling, said, "tap")


def _each(telling: Telling, said: Instruction, how: How, **more: Any) -> None:
    strings = telling.strings_of(said)
    for fret in frets_of(said, "fret"):
        telling.add(said, [Voice(fret, strings[0] if strings else ())], how=how, **more)
