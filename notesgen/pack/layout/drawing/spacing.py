"""Where the notes of a passage stand: broken into lines, and spread over them.

The talk gives no rhythm, so notes stand evenly, and further apart only where a sign needs the room.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from msgspec import Struct

from notesgen.lesson.model import BENDS, LEGATO
from notesgen.pack.layout.columns import Column, groups
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.ink import text_width
from notesgen.pack.layout.strokes import Stroke, strokes


class Spot(Struct, frozen=True):
    """A column at its place: `x` is the middle of its numbers."""

    column: Column
    strokes: tuple[Stroke, ...]
    x: float

    @property
    def half(self) -> float:
        """Half the width of its widest number."""
        return max(text_width(written(stroke), m.SIZE) / 2 for stroke in self.strokes)

    @property
    def left(self) -> float:
        """Where its signs begin."""
        return self.x - _reach(self.column)[0]

    @property
    def right(self) -> float:
        """Where its signs end."""
        return self.x + _reach(self.column)[1]


class Line(Struct, frozen=True):
    """A line of tab. Its strings run from `left` to `right`."""

    spots: tuple[Spot, ...]
    left: float
    right: float


def written(stroke: Stroke) -> str:
    """The number as it stands on its string. One that a bend comes back to is not struck: in brackets."""
    if stroke.fret == "x":
        return "×"
    return f"({stroke.fret})" if stroke.how == "release" else str(stroke.fret)


def bracketed(struck: Sequence[Stroke]) -> bool:
    """Whether notes that begin together need a bracket to show it."""
    strings = [stroke.string for stroke in struck]
    apart = max(strings) - min(strings) >= len(strings)
    return apart and not any(stroke.how in LEGATO for stroke in struck)


def lines(made: Sequence[Column], left: float, width: float) -> list[Line]:
    """The columns in lines that end at `width`, as equally filled as their number allows.

    A joined group stays on one line if a line can hold it.
    """
    if not made:
        return []
    room = width - left
    units = [unit for group in groups(list(made)) for unit in _units(group, room)]
    broken = _broken(units, _evenest(units, room))
    return [_line(columns, left, width) for columns in broken]


def _units(group: list[Column], room: float) -> list[list[Column]]:
    return [group] if _length(group) <= room else [[column] for column in group]


def _evenest(units: Sequence[list[Column]], room: float) -> float:
    """The shortest line that needs no more lines than the longest does, to within a point."""
    wanted, low, high = len(_broken(units, room)), 0.0, room
    while high - low > 1:
        middle = (low + high) / 2
        low, high = (low, middle) if len(_broken(units, middle)) <= wanted else (middle, high)
    return high


def _broken(units: Iterable[list[Column]], room: float) -> list[list[Column]]:
    broken: list[list[Column]] = []
    filled = 0.0
    for unit in units:
        added = _between(broken[-1][-1], unit[0]) + _inner(unit) if broken else 0.0
        if broken and filled + added + _tail(unit[-1]) <= room:
            broken[-1].extend(unit)
            filled += added
        else:
            broken.append(list(unit))
            filled = _head(unit[0]) + _inner(unit)
    return broken


def _line(columns: Sequence[Column], left: float, width: float) -> Line:
    natural = _length(columns)
    gaps = max(1, len(columns) - 1)
    more = max(0.0, min(m.STRETCH, (width - left - natural) / gaps))
    x = left + _head(columns[0])
    spots = [Spot(columns[0], strokes(columns[0].event), x)]
    for before, column in pairwise(columns):
        x += _between(before, column) + more
        spots.append(Spot(column, strokes(column.event), x))
    return Line(tuple(spots), left, x + _tail(columns[-1]))


def _length(columns: Sequence[Column]) -> float:
    return _head(columns[0]) + _inner(columns) + _tail(columns[-1])


def _inner(columns: Sequence[Column]) -> float:
    return sum(_between(before, column) for before, column in pairwise(columns))


def _head(column: Column) -> float:
    """From the beginning of the strings to the middle of the first number."""
    # What it is joined to stands on the line before: there must be room for a stroke out of nowhere.
    come = m.TAIL if column.joined else 0.0
    return m.LEAD + (m.REPEAT if column.opens else 0.0) + come + _reach(column)[0]


def _tail(column: Column) -> float:
    return _reach(column)[1] + m.LEAD + (m.REPEAT if column.closes else 0.0)


def _between(before: Column, column: Column) -> float:
    """From the middle of one column's numbers to the middle of the next one's."""
    bars = (m.REPEAT + m.AIR) * (bool(before.closes) + column.opens)
    apart = m.JOINT if _drawn_between(column) else m.AIR
    return max(m.STEP + bars, _reach(before)[1] + apart + bars + _reach(column)[0])


def _drawn_between(column: Column) -> bool:
    return column.joined and any(stroke.how in ("slide", "release") for stroke in strokes(column.event))


def _reach(column: Column) -> tuple[float, float]:
    """How far the signs of a column go to the left and to the right of its middle."""
    struck = strokes(column.event)
    sides = [_sides(stroke) for stroke in struck]
    left, right = max(left for left, _ in sides), max(right for _, right in sides)
    if bracketed(struck):
        left += m.BRACKET
    elif not column.joined and any(stroke.how in LEGATO for stroke in struck):
        left += m.TAIL
    return left, right


def _sides(stroke: Stroke) -> tuple[float, float]:
    half = text_width(written(stroke), m.SIZE) / 2
    left, right = half, half
    if stroke.how == "harmonic":
        left, right = left + 5, right + 5
    if stroke.how in BENDS:
        right += m.HOOK + 6
    if stroke.how == "trill":
        right += 2 + text_width(f"({stroke.to})", m.TINY)
    if "slide-in" in stroke.marks:
        left += m.TAIL + 2
    if "slide-out" in stroke.marks:
        right += m.TAIL + 2
    return left, right
