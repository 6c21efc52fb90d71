"""The strings, their names, and the bars."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from xml.etree import ElementTree as ET

from notesgen.pack.layout.drawing import ink
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.numbers import taken
from notesgen.pack.layout.drawing.spacing import Line
from notesgen.pack.layout.drawing.spans import closing_bar, opening_bar
from notesgen.pack.layout.drawing.strikes import Strike


def margin(labels: Sequence[str]) -> float:
    """The room for the names of the strings."""
    return 1 + max((ink.text_width(label.strip(), m.SMALL) for label in labels), default=0.0) * 1.25 + 5


def staff(line: Line, strikes: Iterable[Strike], labels: Sequence[str]) -> list[ET.Element]:
    """Strings that leave a gap for each number, and the bars; none where the strings have no names."""
    gaps: dict[int, list[tuple[float, float]]] = {}
    for strike in strikes:
        gaps.setdefault(strike.stroke.string, []).append(taken(strike))
    count = len(labels)
    strings = [_string(line, n, gaps.get(n, [])) for n in range(1, count + 1)]
    names = [
        ink.text((line.left - 5, y_of(n) + 3.1), label, m.SMALL, text_anchor="end")
        for n, label in enumerate(labels, start=1)
    ]
    bars = [_bar(x, count, m.FINE) for x in (line.left, line.right) if any(labels)]
    return [*strings, *names, *bars, *_repeats(line, count)]


def y_of(string: int) -> float:
    """The height of a string, 0 for the thinnest."""
    return (string - 1) * m.SPACE


def _string(line: Line, string: int, gaps: Iterable[tuple[float, float]]) -> ET.Element:
    ends = [line.left, *(end for gap in sorted(gaps) for end in gap), line.right]
    y = ink.number(y_of(string))
    pieces = [(ends[i], ends[i + 1]) for i in range(0, len(ends), 2) if ends[i] < ends[i + 1]]
    d = "".join(f"M{ink.number(start)},{y}H{ink.number(end)}" for start, end in pieces)
    return ink.stroke(d, m.HAIR)


def _bar(x: float, strings: int, width: float) -> ET.Element:
    return ink.line((x, -m.HAIR / 2), (x, y_of(strings) + m.HAIR / 2), width)


def _repeats(line: Line, strings: int) -> list[ET.Element]:
    drawn: list[ET.Element] = []
    for at, spot in enumerate(line.spots):
        if spot.column.opens:
            drawn += _repeat(opening_bar(line, at), strings, opens=True)
        if spot.column.closes:
            drawn += _repeat(closing_bar(line, at), strings, opens=False)
    return drawn


def _repeat(left: float, strings: int, opens: bool) -> list[ET.Element]:
    """A thick bar, a thin one, and two dots on the side that is played again."""
    thick, thin, dots = m.BAR / 2, m.BAR + 2.2, m.REPEAT - 1
    places = (thick, thin, dots) if opens else (m.REPEAT - thick, m.REPEAT - thin, 1.0)
    bars = [_bar(left + places[0], strings, m.BAR), _bar(left + places[1], strings, m.FINE)]
    return bars + [ink.dot((left + places[2], y), 1.4) for y in _dots(strings)]


def _dots(strings: int) -> tuple[float, float]:
    """Two heights between strings, as far from the middle as each other."""
    middle, spaces = y_of(strings) / 2, strings - 1
    away = m.SPACE * (1 if spaces % 2 else 1.5)
    return (middle - min(away, middle), middle + min(away, middle))
