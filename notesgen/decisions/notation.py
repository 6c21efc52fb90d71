"""Notes in short form, string/fret: "2/8"; struck together "3/9:bend=2 2/7"; a dead note "6/x".

What is a note's own, where notes begin differently, stands behind colons: how it begins (`:bend`), with the
semitones of a bend (`:bend=2`, or `:by=2` where only the amount is its own), the other fret of a trill
(`:to=5`).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import get_args

from notesgen.lesson.model import Fret, How, Note

_PLACE = re.compile(r"(?P<string>[1-9]\d?)/(?P<fret>\d{1,3}|x)(?P<own>(?::[a-z-]+(?:=\d+(?:\.\d+)?)?)*)")
_OWN = re.compile(r":(?P<name>[a-z-]+)(?:=(?P<value>\d+(?:\.\d+)?))?")


def parse_notes(text: str) -> tuple[Note, ...] | None:
    """The notes, thinnest string first as they stand; None where the text is not in short form."""
    notes = [_note(part) for part in text.split()]
    found = tuple(note for note in notes if note is not None)
    strings = {note.string for note in found}
    return found if found and len(strings) == len(notes) else None


def short(notes: Iterable[Note]) -> str:
    """The notes in short form."""
    return " ".join(f"{note.string}/{note.fret}{_own(note)}" for note in notes)


def _note(text: str) -> Note | None:
    found = _PLACE.fullmatch(text)
    if found is None:
        return None
    fret: Fret = "x" if found["fret"] == "x" else int(found["fret"])
    how: How | None = None
    bend: float | None = None
    to: int | None = None
    for own in _OWN.finditer(found["own"]):
        name, value = own["name"], own["value"]
        if name == "to" and value and value.isdigit():
            to = int(value)
        elif name == "by" and value:
            bend = float(value)
        elif name in get_args(How):
            how, bend = name, float(value) if value else bend  # type: ignore[assignment]
        else:
            return None
    return Note(int(found["string"]), fret, how, bend, to)


def _own(note: Note) -> str:
    amount = "" if note.bend is None else f"={note.bend:g}"
    own = f":{note.how}{amount}" if note.how else f":by{amount}" if amount else ""
    return own if note.to is None else f"{own}:to={note.to}"
