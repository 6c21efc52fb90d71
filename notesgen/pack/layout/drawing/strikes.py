"""What each note of a line needs to know of those before it, to be joined to them."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from notesgen.lesson.model import BENDS, Fret
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.spacing import Line, Spot
from notesgen.pack.layout.strokes import Stroke


class Strike(Struct, frozen=True):
    """One number of the tab. The string lies at `y`, 0 for the thinnest.

    `before` is the spot of the note before it on its string, None where that stands on an earlier line;
    `fret_before` is its fret, also then. `peak` is where that note was bent up to, if it was.
    """

    stroke: Stroke
    spot: Spot
    y: float
    before: Spot | None
    fret_before: Fret | None
    peak: float | None

    @property
    def falls(self) -> bool:
        """Whether it lies lower on the neck than the note before it."""
        here, there = self.stroke.fret, self.fret_before
        return isinstance(here, int) and isinstance(there, int) and here < there


def strikes(lines: Iterable[Line]) -> list[list[tuple[Strike, ...]]]:
    """For each line, for each of its spots, the notes there."""
    made: list[list[tuple[Strike, ...]]] = []
    frets: dict[int, Fret] = {}
    for line in lines:
        spots: dict[int, Spot] = {}
        peaks: dict[int, float] = {}
        made.append([])
        for spot in line.spots:
            made[-1].append(
                tuple(
                    Strike(
                        stroke=s,
                        spot=spot,
                        y=(s.string - 1) * m.SPACE,
                        before=spots.get(s.string),
                        fret_before=frets.get(s.string),
                        peak=peaks.get(s.string),
                    )
                    for s in spot.strokes
                )
            )
            for s in spot.strokes:
                frets[s.string], spots[s.string] = s.fret, spot
                peaks.pop(s.string, None)
                if s.how in BENDS:
                    peaks[s.string] = peak(spot, s)
    return made


def peak(spot: Spot, stroke: Stroke) -> float:
    """Where the arrow of a bend points up: beside its number, or above the number of a pre-bend that has
    nothing over it."""
    over = any(other.string < stroke.string for other in spot.strokes)
    if stroke.how == "pre-bend":
        return spot.x + (spot.half + 4 if over else 0)
    bends = [other for other in spot.strokes if other.how == "bend"]
    # Two bends of different size need an arrow each.
    aside = bends.index(stroke) if len({other.bend for other in bends}) > 1 else 0
    return spot.x + spot.half + m.HOOK - 3 + 8 * aside
