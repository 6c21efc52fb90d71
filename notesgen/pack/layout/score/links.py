"""What leads from note to note on a string: slurs, slides, hammer-ons, pull-offs."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, Event, How
from notesgen.pack.layout.strokes import Stroke, strokes


class Link(Struct, frozen=True):
    """One note and its ties to its string. `comes`: it is reached by `stroke.how` from a note that is there.

    `goes` is how the next note on the string is reached from this one, None where it is struck anew.
    `bent`: semitones to which the string is bent when this note begins, None where that is not known.
    """

    stroke: Stroke
    comes: bool = False
    goes: How | None = None
    bent: float | None = None

    @property
    def slurs_in(self) -> bool:
        """Whether a slur arrives here: a slide has a line of its own."""
        return self.comes and self.stroke.how != "slide"

    @property
    def slurs_out(self) -> bool:
        """Whether a slur goes on from here."""
        return self.goes not in (None, "slide")


def links(events: Sequence[Event]) -> list[tuple[Link, ...]]:
    """For each event of a phrase its notes, the thickest string first."""
    made = [[Link(stroke) for stroke in reversed(strokes(event))] for event in events]
    last: dict[int, tuple[int, int]] = {}
    for at, notes in enumerate(made):
        for n, link in enumerate(notes):
            string = link.stroke.string
            if link.stroke.how in LEGATO and string in last:
                before_at, before_n = last[string]
                before = made[before_at][before_n]
                made[before_at][before_n] = replace(before, goes=link.stroke.how)
                notes[n] = replace(link, comes=True, bent=_bent(before))
            last[string] = (at, n)
    return [tuple(notes) for notes in made]


def _bent(link: Link) -> float | None:
    """How far the string stays bent after this note."""
    return link.stroke.bend if link.stroke.how in ("bend", "pre-bend") else None
