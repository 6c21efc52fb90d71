"""Strings and places as a teacher says them."""

from __future__ import annotations

from notesgen.checks.tones import neck
from notesgen.lesson.model import Event, Lesson, Note
from notesgen.music.tuning import string_names

_ARTICLES = {
    "hammer-on": "a hammer-on",
    "pull-off": "a pull-off",
    "slide": "a slide",
    "release": "a release",
    "trill": "a trill",
}


def string_name(lesson: Lesson, at: float, string: int) -> str:
    """ "the B string", "the low E string"; "string 8" for one that the tuning does not have."""
    names = _names(lesson, at)
    return f"the {names[string - 1]} string" if 1 <= string <= len(names) else f"string {string}"


def place_name(lesson: Lesson, event: Event, note: Note) -> str:
    """ "fret 7 of the B string", "the open B string", "a dead note on the B string"."""
    string = string_name(lesson, event.start, note.string)
    if note.fret == "x":
        return f"a dead note on {string}"
    if note.fret == 0:
        return f"the open {string.removeprefix('the ')}"
    return f"fret {note.fret} of {string}"


def fret_name(fret: int) -> str:
    """ "fret 7", "the open string"."""
    return f"fret {fret}" if fret else "the open string"


def technique(word: str) -> str:
    """A technique with its article: "a hammer-on"."""
    return _ARTICLES.get(word, word)


def listed(words: tuple[str, ...], last: str) -> str:
    """ "a", "a or b", "a, b or c", the `last` joined by "or" or "and"."""
    return f" {last} ".join(part for part in (", ".join(words[:-1]), *words[-1:]) if part)


def sentence(text: str) -> str:
    """The text with a capital letter."""
    return text[:1].upper() + text[1:]


def _names(lesson: Lesson, at: float) -> tuple[str, ...]:
    """The strings' names by shape, string 1 first; () if the tuning is none."""
    board = neck(lesson, at)
    return () if board is None else string_names(board.tuning)
