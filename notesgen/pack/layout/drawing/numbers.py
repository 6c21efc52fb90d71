"""The frets, and what stands against them on their string."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree import ElementTree as ET

from notesgen.pack.layout.drawing import ink
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.spacing import Spot, bracketed, written
from notesgen.pack.layout.drawing.strikes import Strike


def numbers(strikes: Sequence[Strike]) -> list[ET.Element]:
    """All numbers of an event, each with its brackets and tails. A bracket joins strings that lie apart,
    unless the lines that lead there have joined them already."""
    drawn = [element for strike in strikes for element in _number(strike)]
    return drawn + _bracket(strikes)


def taken(strike: Strike) -> tuple[float, float]:
    """The stretch of its string that a number takes up."""
    half = ink.text_width(written(strike.stroke), m.SIZE) / 2
    left, right = strike.spot.x - half - m.TOE, strike.spot.x + half + m.TOE
    if strike.stroke.how == "harmonic":
        return left - 4, right + 4
    if strike.stroke.how == "trill" and strike.stroke.to is not None:
        return left, right + 1 + ink.text_width(f"({strike.stroke.to})", m.TINY)
    return left, right


def _number(strike: Strike) -> list[ET.Element]:
    x, y = strike.spot.x, strike.y
    string, fret = str(strike.stroke.string), str(strike.stroke.fret)
    size = m.CROSS if fret == "x" else m.SIZE
    drawn = [_on_string(x, y, written(strike.stroke), size, data_string=string, data_fret=fret)]
    if strike.stroke.how == "harmonic":
        drawn += [
            _angle(x, y, side * (ink.text_width(fret, m.SIZE) / 2 + 1.5), side * 3.2) for side in (-1, 1)
        ]
    if strike.stroke.how == "trill" and strike.stroke.to is not None:
        to = f"({strike.stroke.to})"
        beside = x + ink.text_width(fret, m.SIZE) / 2 + 1.5 + ink.text_width(to, m.TINY) / 2
        drawn.append(_on_string(beside, y, to, m.TINY))
    return drawn + _tails(strike)


def _on_string(x: float, y: float, words: str, size: float, **attributes: str) -> ET.Element:
    return ink.text((x, y + ink.HALF_HEIGHT * size), words, size, **attributes)


def _angle(x: float, y: float, away: float, depth: float) -> ET.Element:
    """One of the two angle brackets around a harmonic."""
    points = [(x + away, y - 4.6), (x + away + depth, y), (x + away, y + 4.6)]
    return ink.polyline(points, m.FINE)


def _tails(strike: Strike) -> list[ET.Element]:
    """Slides from nowhere and to nowhere. They come from below and fall away, as `tab.txt` writes them."""
    left, right = taken(strike)
    marks, y, drawn = strike.stroke.marks, strike.y, []
    if "slide-in" in marks:
        drawn.append(ink.line((left - m.TAIL, y + 4), (left, y - 3), m.FINE))
    if "slide-out" in marks:
        drawn.append(ink.line((right, y - 3), (right + m.TAIL, y + 4), m.FINE))
    return drawn


def _bracket(strikes: Sequence[Strike]) -> list[ET.Element]:
    if not bracketed(strikes[0].spot.strokes):
        return []
    spot: Spot = strikes[0].spot
    x, top, bottom = spot.x - spot.half - m.BRACKET, strikes[0].y - 4, strikes[-1].y + 4
    return [ink.polyline([(x + 2.5, top), (x, top), (x, bottom), (x + 2.5, bottom)], m.FINE)]
