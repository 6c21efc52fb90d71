"""What stands above single notes: letters of techniques, accents, the wave of a vibrato."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree import ElementTree as ET

from notesgen.pack.layout.drawing import ink
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.joins import SLURRED, comes_from
from notesgen.pack.layout.drawing.shelves import Sign
from notesgen.pack.layout.drawing.strikes import Strike

LETTERS = {"hammer-on": "h", "pull-off": "p", "tap": "t", "trill": "tr"}
WAVE = 3.2  # the width of one hump


def letters(strikes: Sequence[Strike], until: float, event: str) -> list[Sign]:
    """The signs of one event; a wave may go on to `until`."""
    marks = strikes[0].stroke.marks
    x = strikes[0].spot.x
    signs = [_letter(strike, event) for strike in _one_each(strikes)]
    if "accent" in marks:
        signs.append(Sign(x - 4, x + 4, lambda y: [_wedge(x, y)], event))
    if "staccato" in marks:
        signs.append(Sign(x - 2, x + 2, lambda y: [ink.dot((x, y - 3), 1.3)], event))
    if "vibrato" in marks or any(strike.stroke.how == "trill" for strike in strikes):
        start = x + 9 if any(strike.stroke.how == "trill" for strike in strikes) else x - 4
        end = max(start + 4 * WAVE, min(until, start + 8 * WAVE))
        signs.append(Sign(start, end, lambda y: [_wave(start, end, y - 3)], event))
    return signs


def _one_each(strikes: Sequence[Strike]) -> list[Strike]:
    """One note for each technique that has a letter."""
    return list({s.stroke.how: s for s in reversed(strikes) if s.stroke.how in LETTERS}.values())


def _letter(strike: Strike, event: str) -> Sign:
    words = LETTERS[strike.stroke.how]
    slurred = strike.stroke.how in SLURRED
    x = (comes_from(strike) + strike.spot.x) / 2 if slurred else strike.spot.x
    half = ink.text_width(words, m.SMALL) / 2
    return Sign(
        x - half,
        x + half,
        lambda y: [ink.text((x, y), words, m.SMALL, font_style="italic")],
        event,
    )


def _wedge(x: float, y: float) -> ET.Element:
    return ink.polyline([(x - 4, y - 6), (x + 4, y - 3.2), (x - 4, y - 0.4)], m.FINE)


def _wave(start: float, end: float, y: float) -> ET.Element:
    humps = max(1, round((end - start) / WAVE))
    first = f"M{ink.number(start)},{ink.number(y)}q{ink.number(WAVE / 2)},-3.4 {ink.number(WAVE)},0"
    return ink.stroke(first + f"t{ink.number(WAVE)},0" * (humps - 1), 1.1)
