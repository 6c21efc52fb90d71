"""What holds for several notes: marks with a dashed line over them, and how often a repeat is played."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from xml.etree import ElementTree as ET

from notesgen.lesson.model import Mark
from notesgen.pack.layout.drawing import ink
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.shelves import Sign
from notesgen.pack.layout.drawing.spacing import Line, Spot

NAMES: tuple[tuple[Mark, str], ...] = (("palm-mute", "P.M."), ("let-ring", "let ring"), ("rake", "rake"))
DASHES = "3.2 2.6"


def spans(line: Line) -> list[Sign]:
    """The counts of the line's repeats, which stand next to their bars, then its brackets."""
    counts = [_count(line, at) for at, spot in enumerate(line.spots) if spot.column.closes]
    return counts + [sign for mark, name in NAMES for sign in _marked(line, mark, name)]


def _marked(line: Line, mark: Mark, name: str) -> Iterator[Sign]:
    for held, run in groupby(line.spots, lambda spot: mark in spot.column.event.marks):
        if held:
            spots = list(run)
            yield _span(spots[0], spots[-1], name, line.right)


def _span(first: Spot, last: Spot, name: str, right: float) -> Sign:
    """From the first note to the last; moved to the left where the name would pass the end of the line."""
    long = ink.text_width(name, m.SMALL) * 0.9
    start = min(first.x - first.half, right - long)
    after = start + long
    end = max(last.x + last.half + 2, after)

    def draw(y: float) -> list[ET.Element]:
        words = ink.text((start, y), name, m.SMALL, font_style="italic", text_anchor="start")
        if end < after + 6:
            return [words]
        dashes = ink.line((after + 2, y - 2.6), (end, y - 2.6), m.FINE, stroke_dasharray=DASHES)
        return [words, dashes, ink.line((end, y - 5.2), (end, y + 1), m.FINE)]

    return Sign(start, end, draw)


def _count(line: Line, at: int) -> Sign:
    spot = line.spots[at]
    words = f"×{spot.column.closes}"
    end = closing_bar(line, at) + m.REPEAT
    start = end - ink.text_width(words, m.SMALL)
    return Sign(start, end, lambda y: [ink.text((end, y), words, m.SMALL, text_anchor="end")])


def closing_bar(line: Line, at: int) -> float:
    """Where the repeat bar after a spot begins."""
    if at == len(line.spots) - 1:
        return line.right - m.REPEAT
    return line.spots[at].right + m.AIR


def opening_bar(line: Line, at: int) -> float:
    """Where the repeat bar before a spot begins."""
    return line.left if at == 0 else line.spots[at].left - m.AIR - m.REPEAT
