"""The teacher's open questions, as a pencil leaves them on a proof: a ring round a note, or a stroke under
several, with the number of the remark in the margin."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from math import cos, pi, sin
from xml.etree import ElementTree as ET

from notesgen.pack.layout.drawing import ink
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.spacing import Line, Spot

# A grey that reads on white paper and on black: 4.6 to 1 on either (WCAG 2.2, relative luminance).
GREY = "#757575"
LEAD = 1.1  # the width of the stroke
NUMBER = 11.0  # the size of a number
TURNS = 26  # strokes that make up a ring


def pencil(line: Line, strings: int) -> list[ET.Element]:
    """The marks of a line, in one group; nothing where nothing is asked."""
    runs = [list(run) for asked, run in groupby(line.spots, lambda spot: spot.column.asked) if asked]
    marks = [element for run in runs for element in _mark(run, (strings - 1) * m.SPACE)]
    round_ = {"stroke_linecap": "round", "stroke_linejoin": "round"}
    return [ink.group(marks, class_="pencil", color=GREY, fill=GREY, **round_)] if marks else []


def _mark(run: Sequence[Spot], bottom: float) -> list[ET.Element]:
    asked = run[0].column.asked
    words, base = ", ".join(map(str, asked)), bottom + m.BELOW
    if len(run) == 1:
        return [_ring(run[0], seed=asked[0]), _number(run[0].x, base, words)]
    begin = max(run[0].x - run[0].half - 5, ink.text_width(words, NUMBER))
    end = run[-1].x + run[-1].half + 2
    return [_under(begin + 3, end, base - 5, seed=asked[0]), _number(begin, base, words, "end")]


def _number(x: float, y: float, words: str, anchor: str = "middle") -> ET.Element:
    return ink.text((x, y), words, NUMBER, font_style="italic", text_anchor=anchor)


def _ring(spot: Spot, seed: int) -> ET.Element:
    """Not quite round, and not quite closed where it ends: drawn by a hand, the same hand each time."""
    heights = [(stroke.string - 1) * m.SPACE for stroke in spot.strokes]
    middle = (heights[0] + heights[-1]) / 2
    wide, high = spot.half + 6, (heights[-1] - heights[0]) / 2 + 8.5
    points = []
    for turn in range(TURNS + 1):
        angle = -2.3 + turn / TURNS * (2 * pi + 0.5)
        swell = 0.97 + 0.04 * sin(2 * angle + seed) + 0.16 * max(0, turn / TURNS - 0.6)
        points.append((spot.x + wide * swell * cos(angle), middle + high * swell * sin(angle)))
    return ink.polyline(points, LEAD)


def _under(start: float, end: float, y: float, seed: int) -> ET.Element:
    pieces = max(4, round((end - start) / 12))
    points = [
        (start + (end - start) * piece / pieces, y + 0.7 * sin(piece * 1.3 + seed) - piece / pieces)
        for piece in range(pieces + 1)
    ]
    return ink.polyline(points, LEAD)
