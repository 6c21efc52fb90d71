"""The lesson as the page shows it: phrases to draw, and queries to ask, the most important first."""

from __future__ import annotations

from msgspec import Struct

from notesgen.lesson.model import Event, Flag


class String(Struct, frozen=True):
    """A string of the instrument: its name, and the MIDI number of its open note."""

    name: str
    open: int


class Picture(Struct, frozen=True):
    """One line of tab as SVG, and what it shows in words."""

    svg: str
    alt: str


class Piece(Struct, frozen=True):
    """A phrase with all that the page draws of it. `start` in seconds."""

    id: str
    title: str
    start: float
    events: tuple[Event, ...]
    pictures: tuple[Picture, ...]


class Slip(Struct, frozen=True):
    """A query. `number` is its mark in the tab; `options` are the labels of its answers, the draft's own
    first; `answer` is what the teacher said, "" while it is open; `by_the_way` tells that an answer to
    another query settled it."""

    id: str
    number: int
    kind: str
    piece: str
    start: float
    end: float
    events: tuple[str, ...]
    message: str
    options: tuple[str, ...]
    answer: str
    by_the_way: bool


class Told(Struct, frozen=True):
    """What an act has changed: a sentence, the notes that look another way now, and a note that is new."""

    message: str = ""
    changed: tuple[str, ...] = ()
    made: str | None = None


class Proof(Struct, frozen=True):
    """The draft at one revision. `order` names all pieces; `pieces` are those that the page has not yet,
    `unplaced` the answers that fit nothing any more, in words."""

    revision: int
    title: str
    facts: tuple[tuple[str, str], ...]
    strings: tuple[String, ...]
    order: tuple[str, ...]
    pieces: tuple[Piece, ...]
    slips: tuple[Slip, ...]
    unplaced: tuple[str, ...] = ()
    can_undo: bool = False
    can_redo: bool = False
    told: Told = Told()


def is_open(flag: Flag) -> bool:
    """Whether the teacher is still asked."""
    return flag.level == "query" and flag.decided is None
