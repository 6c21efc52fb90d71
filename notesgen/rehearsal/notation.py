"""Notes as an example writes them: string/fret, how the note begins, then marks.

`3/5 pick`; `?/7 hammer-on` (the string is not said, so the draft must ask); `(3/7 2/8) pick`; `3/14 bend=2`
(semitones); `3/3 trill to=5`; `1/7 pick vibrato`; `6/x pick`. "pick" may be left out. A note of a pair that
begins in its own way has that behind a colon: `(3/9:bend=2 2/7)`.
"""

from __future__ import annotations

import re
from itertools import permutations
from typing import get_args

from msgspec import Struct

from notesgen.lesson.model import BENDS, Event, How, Mark, Note

UNSAID = "?"

_EVENT = re.compile(r"(?:\((?P<pair>[^()]+)\)|(?P<one>\S+))\s*(?P<rest>.*)")
_NOTE = re.compile(r"(?P<string>\d+|\?)/(?P<fret>\d+|x)(?::(?P<how>\S+))?")
_HOW = re.compile(r"(?P<how>[a-z-]+)(?:=(?P<bend>\d+(?:\.\d+)?))?")
_TO = re.compile(r"to=(\d+)")


class NotationError(ValueError):
    """Notes that cannot be read; the message says why in plain words."""


class WrittenNote(Struct, frozen=True):
    """One note. `string` is None for "?"; `how` and `bend` are set only where they are its own."""

    string: int | None
    fret: str
    how: str = ""
    bend: float | None = None

    def __str__(self) -> str:
        own = f":{self.how}{_amount(self.bend)}" if self.how else ""
        return f"{self.string or UNSAID}/{self.fret}{own}"


class Written(Struct, frozen=True):
    """One event. An amount or a trill's fret that an example leaves out (None) may be anything."""

    notes: tuple[WrittenNote, ...]
    how: str = "pick"
    bend: float | None = None
    to: int | None = None
    marks: tuple[str, ...] = ()

    def __str__(self) -> str:
        notes = " ".join(map(str, self.notes))
        to = [] if self.to is None else [f"to={self.to}"]
        began = f"{self.how}{_amount(self.bend)}"
        return " ".join([f"({notes})" if len(self.notes) > 1 else notes, began, *to, *self.marks])

    @property
    def asks(self) -> bool:
        """Whether the string of some note is not said."""
        return any(note.string is None for note in self.notes)

    def fits(self, event: Event) -> bool:
        """Whether the event is what is written here, whichever strings are not said."""
        got = written(event)
        return (
            self.how == got.how
            and self.bend in (None, got.bend)
            and self.to in (None, got.to)
            and sorted(self.marks) == sorted(got.marks)
            and len(self.notes) == len(got.notes)
            and any(all(map(_fits, self.notes, order)) for order in permutations(got.notes))
        )


def written(event: Event) -> Written:
    """The event as an example would write it."""
    notes = tuple(_written_note(note) for note in event.notes)
    bend = event.bend if event.how in BENDS else None
    return Written(notes, event.how, bend, event.to, tuple(event.marks))


def parse(text: str) -> Written:
    """Reads one event of an example. Raises NotationError."""
    found = _EVENT.fullmatch(text.strip())
    if not found:
        raise NotationError(f'"{text}" is no note: write it like "3/5 pick", string/fret and how it begins')
    notes = tuple(_note(note) for note in (found["pair"] or found["one"]).split())
    how, bend, to = "pick", None, None
    marks: list[str] = []
    for number, word in enumerate(found["rest"].split()):
        if at := _TO.fullmatch(word):
            to = int(at[1])
        elif word in get_args(Mark):
            marks.append(word)
        elif number == 0:
            how, bend = _how(word)
        else:
            raise NotationError(f'"{word}" in "{text}" is no mark; marks: {", ".join(get_args(Mark))}')
    return Written(notes, how, bend, to, tuple(marks))


def _note(text: str) -> WrittenNote:
    found = _NOTE.fullmatch(text)
    if not found:
        raise NotationError(f'"{text}" is no note: write string/fret, such as 3/5, ?/5 or 6/x')
    string = None if found["string"] == UNSAID else int(found["string"])
    how, bend = _how(found["how"]) if found["how"] else ("", None)
    return WrittenNote(string, found["fret"], how, bend)


def _how(text: str) -> tuple[str, float | None]:
    found = _HOW.fullmatch(text)
    if not found or found["how"] not in get_args(How):
        raise NotationError(f'"{text}" is no way for a note to begin; ways: {", ".join(get_args(How))}')
    return found["how"], float(found["bend"]) if found["bend"] else None


def _written_note(note: Note) -> WrittenNote:
    return WrittenNote(note.string, str(note.fret), note.how or "", note.bend)


def _fits(expected: WrittenNote, got: WrittenNote) -> bool:
    return (
        expected.fret == got.fret
        and expected.string in (None, got.string)
        and expected.how == got.how
        and expected.bend in (None, got.bend)
    )


def _amount(bend: float | None) -> str:
    return "" if bend is None else f"={bend:g}"
