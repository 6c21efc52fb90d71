"""The arrows of bends and releases. They grow out of their string and end above the staff."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree import ElementTree as ET

from notesgen.lesson.model import BENDS
from notesgen.pack.layout.drawing import ink
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.shelves import Sign
from notesgen.pack.layout.drawing.strikes import Strike, peak

TIP = -m.CLEAR - 5.0  # the height of the arrows
QUARTERS = ("", "¼", "½", "¾")
HEAD = 5.0  # the length of an arrow's head


def bends(strikes: Sequence[Strike], event: str) -> list[Sign]:
    """The arrows of one event, each with the amount over it."""
    up = [strike for strike in strikes if strike.stroke.how in BENDS]
    down = [strike for strike in strikes if strike.stroke.how == "release"]
    return [_up(strike, event) for strike in up] + [_down(strike, event) for strike in down]


def amount(semitones: float | None) -> str:
    """A bend in whole steps, as printed tabs have it: "½", "full", "1½"; "" where it was not said."""
    if semitones is None:
        return ""
    whole, quarters = divmod(round(semitones * 2), 4)
    if (whole, quarters) == (1, 0):
        return "full"
    return f"{whole or ''}{QUARTERS[quarters]}" or "0"


def _up(strike: Strike, event: str) -> Sign:
    at, words = peak(strike.spot, strike.stroke), amount(strike.stroke.bend)
    half = max(ink.text_width(words, m.SMALL) / 2, HEAD / 2)

    def draw(_: float) -> list[ET.Element]:
        arrow = [_stem(strike, at), _head(at, TIP, -1)]
        return [*arrow, ink.text((at, TIP - 2.5), words, m.SMALL)] if words else arrow

    return Sign(min(strike.spot.x, at - half), at + half, draw, event, rows=2, rooted=True)


def _stem(strike: Strike, at: float) -> ET.Element:
    top = TIP + HEAD - 1
    if strike.stroke.how == "pre-bend":
        over = any(other.string < strike.stroke.string for other in strike.spot.strokes)
        return ink.line((at, strike.y - (0 if over else 6)), (at, top), m.FINE)
    start = (strike.spot.x + _half(strike), strike.y)
    return ink.curve(start, (at - 2, strike.y), (at, strike.y - 4), (at, top), m.FINE)


def _half(strike: Strike) -> float:
    return ink.text_width(str(strike.stroke.fret), m.SIZE) / 2 + m.TOE - 1


def _down(strike: Strike, event: str) -> Sign:
    end, foot = strike.spot.x, strike.y - 6
    start = strike.spot.x - m.STEP * 0.6 if strike.peak is None else strike.peak

    def draw(_: float) -> list[ET.Element]:
        shoulder = (start + (end - start) * 0.75, TIP)
        fall = ink.curve((start, TIP), shoulder, (end, TIP + 3), (end, foot - HEAD + 1), m.FINE)
        return [fall, _head(end, foot, 1)]

    return Sign(start, end + HEAD / 2, draw, event, rooted=True)


def _head(x: float, y: float, way: int) -> ET.Element:
    """An arrow's head with its point at (x, y); `way` is -1 up, 1 down."""
    back = y - way * HEAD
    return ink.shape([(x, y), (x - 2.1, back), (x, back + way * 1.2), (x + 2.1, back)])
