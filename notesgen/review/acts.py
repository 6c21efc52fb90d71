"""What a teacher can do on the page, as the page sends it."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from notesgen.lesson.model import How, Mark, Note

String = Annotated[int, Meta(ge=1, le=20)]
Title = Annotated[str, Meta(max_length=200)]
Side = Literal["before", "after"]


class _Act(Struct, frozen=True, kw_only=True, tag_field="act", forbid_unknown_fields=True):
    """Every act names itself in the field `act`."""


class Choose(_Act, frozen=True, kw_only=True, tag="choose"):
    """Answers a query with one of its options, counted from 0."""

    query: str
    option: int


class Write(_Act, frozen=True, kw_only=True, tag="write"):
    """Writes a note anew. What is None stays; `marks` replace the former ones. A bend of 0 is none."""

    event: str
    notes: tuple[Note, ...] | None = None
    how: How | None = None
    bend: float | None = None
    to: int | None = None
    marks: tuple[Mark, ...] | None = None


class Delete(_Act, frozen=True, kw_only=True, tag="delete"):
    """Takes notes out."""

    events: tuple[str, ...]


class Insert(_Act, frozen=True, kw_only=True, tag="insert"):
    """A new note beside one, at first a picked copy of it."""

    event: str
    side: Side


class Rename(_Act, frozen=True, kw_only=True, tag="rename"):
    """Gives the phrase of a note another title."""

    event: str
    title: Title


class Split(_Act, frozen=True, kw_only=True, tag="split"):
    """Begins a new phrase at a note."""

    event: str


class Join(_Act, frozen=True, kw_only=True, tag="join"):
    """Lets the phrase of a note go on from the one before."""

    event: str


class Recap(_Act, frozen=True, kw_only=True, tag="recap"):
    """Takes a passage out as told over."""

    events: tuple[str, ...]


class Undo(_Act, frozen=True, kw_only=True, tag="undo"):
    """Takes back the last step."""


class Redo(_Act, frozen=True, kw_only=True, tag="redo"):
    """Takes the last step again that was taken back."""


Act = Choose | Write | Delete | Insert | Rename | Split | Join | Recap | Undo | Redo


class Sent(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """An act, and what the page had before it: the revision it shows, and how wide (points) it draws.

    `amends` names the revision that the act corrects: a second figure typed after the first is one step.
    """

    do: Act
    revision: int
    width: float
    amends: int | None = None
