"""Steps written as frets, for the tests of recaps."""

from __future__ import annotations

from notesgen.lesson.model import Fret
from notesgen.settle.step import Step, Voice


def steps(text: str) -> list[Step]:
    """Steps from words like "7", "3/7" (string 3 named), "x", "7~9" (a trill) and "5+5" (struck together)."""
    return [_step(word, at) for at, word in enumerate(text.split())]


def _step(word: str, at: int) -> Step:
    plain, _, other = word.partition("~")
    voices = tuple(_voice(part) for part in plain.split("+"))
    if other:
        return Step(voices, at, at + 1, 0, 1, how="trill", to=int(other))
    return Step(voices, at, at + 1, 0, 1)


def _voice(text: str) -> Voice:
    string, slash, fret = text.rpartition("/")
    value: Fret = "x" if fret == "x" else int(fret)
    return Voice(value, (int(string),) if slash else ())
