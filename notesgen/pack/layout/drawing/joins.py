"""What leads from one note to the next on its string: slurs and slides."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree import ElementTree as ET

from notesgen.pack.layout.drawing import ink
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.numbers import taken
from notesgen.pack.layout.drawing.spacing import written
from notesgen.pack.layout.drawing.strikes import Strike

SLURRED = ("hammer-on", "pull-off")
OVER = 5.4  # from the string up to the ends of a slur, clear of the figures


def joins(strikes: Sequence[Strike]) -> list[ET.Element]:
    """The slurs and slides that lead to these notes. Where the note before is on another line, or nowhere,
    they come in from the left."""
    slurs = [_slur(strike) for strike in strikes if strike.stroke.how in SLURRED]
    return slurs + [_slide(strike) for strike in strikes if strike.stroke.how == "slide"]


def comes_from(strike: Strike) -> float:
    """The middle of the note before, or as far to the left as a short slur begins."""
    return strike.before.x if strike.before else strike.spot.x - m.STEP * 0.6


def _slur(strike: Strike) -> ET.Element:
    start, end, y = comes_from(strike) + 1, strike.spot.x - 1, strike.y - OVER
    return ink.lens((start, y), (end, y), min(4.5, 2 + (end - start) / 12), 0.9)


def _slide(strike: Strike) -> ET.Element:
    end = taken(strike)[0] + 0.5
    start = end - m.TAIL
    if strike.before:
        there = next(s for s in strike.before.strokes if s.string == strike.stroke.string)
        start = strike.before.x + ink.text_width(written(there), m.SIZE) / 2 + m.TOE - 0.5
    rise = -3.4 if strike.falls else 3.4
    return ink.line((start, strike.y + rise), (end, strike.y - rise), m.FINE)
