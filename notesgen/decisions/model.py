"""A decision: what was asked, the answer, and the notes that it is about, known by their words and place.

Nothing here names an id of one draft: ids change with the captions, words and places hardly do. The fields
stand as they are written in `decisions.toml`.
"""

from __future__ import annotations

from msgspec import Struct

from notesgen.lesson.model import FlagKind, How, Mark


class Added(Struct, frozen=True, kw_only=True, omit_defaults=True, forbid_unknown_fields=True):
    """A note that no words of the lesson gave. `notes` in short form: "3/9", or "3/9:bend=2 2/7"."""

    notes: str
    how: How = "pick"
    bend: float | None = None
    to: int | None = None
    marks: tuple[Mark, ...] = ()


class Target(Struct, frozen=True, kw_only=True, omit_defaults=True, forbid_unknown_fields=True):
    """One event as it was drafted, and what becomes of it. Without an edit, it stays as it is.

    `at` in seconds; `words` are its quote, `was` its notes in short form, `nth` its place among the events
    of the same words, from 1. `added` picks one that an answer wrote: 2 is the second after it, -1 the first
    before it. `times` writes it so many times in a row; `before` and `after` are new events beside it.
    """

    at: float
    words: str
    was: str
    nth: int = 1
    added: int = 0
    notes: str | None = None
    how: How | None = None
    bend: float | None = None
    to: int | None = None
    marks: tuple[Mark, ...] | None = None
    drop: bool = False
    times: int | None = None
    before: tuple[Added, ...] = ()
    after: tuple[Added, ...] = ()


class Decision(Struct, frozen=True, kw_only=True, omit_defaults=True, forbid_unknown_fields=True):
    """One answer, or one edit by the teacher's own hand (`asked` is then absent).

    `at` (seconds) and `words` are those of the question; `before` and `after` are words of the lesson around
    the targets. `draft` tells which captions the decision was made on, see `places.print_of`. `recap` takes
    the targets out as told over; `rename`, `split` and `join` are about the phrase that holds the first
    target: a new title, a phrase that begins at it, a phrase that goes on from the one before.
    """

    answer: str
    asked: FlagKind | None = None
    phrase: str = ""
    at: float
    words: str
    before: str = ""
    after: str = ""
    draft: str = ""
    rename: str | None = None
    split: bool = False
    join: bool = False
    recap: bool = False
    targets: tuple[Target, ...] = ()
