"""The columns of a passage drawn as systems: one line of text a string, labels above and below."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct

from notesgen.pack.layout.columns import Column, Placed, columns, groups
from notesgen.pack.layout.labels import above, below, rows
from notesgen.pack.layout.sheet import Passage, Sheet

GAP = "--"
OPEN, CLOSE, BAR = "|:", ":|", "|"


class System(Struct, frozen=True):
    """A line of tab. `strings` are all equally long; `over` and `under` hold the labels."""

    over: tuple[str, ...]
    strings: tuple[str, ...]
    under: tuple[str, ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """All lines, top to bottom."""
        return (*self.over, *self.strings, *self.under)


def systems(passage: Passage, sheet: Sheet, width: int) -> list[System]:
    """The passage in lines of at most `width` characters, wrapped between events.

    A joined group stays on one line if a line can hold it; an event wider than a line stands alone.
    """
    room = width - max(map(len, sheet.labels), default=0)
    return [_system(line, sheet.labels) for line in _wrapped(columns(passage, sheet), room)]


def _wrapped(made: list[Column], room: int) -> list[list[Column]]:
    lines: list[list[Column]] = []
    for unit in _units(made, room):
        if lines and _length([*lines[-1], *unit]) <= room:
            lines[-1] += unit
        else:
            lines.append(list(unit))
    return lines


def _units(made: list[Column], room: int) -> Iterable[list[Column]]:
    """What is kept together: groups, and the single columns of a group that no line can hold."""
    for group in groups(made):
        if _length(group) <= room:
            yield group
        else:
            yield from ([column] for column in group)


def _length(line: Sequence[Column]) -> int:
    spacing = [len(_before(line, i)) for i in range(len(line))]
    return sum(spacing) + sum(column.width for column in line) + len(_end(line))


def _before(line: Sequence[Column], index: int) -> str:
    """Bars and gap that stand before a column; the same on all strings."""
    column = line[index]
    if index == 0:
        return (OPEN if column.opens else BAR) + GAP
    if column.joined:
        return ""
    closes = bool(line[index - 1].closes)
    bars = (CLOSE if closes else "") + (OPEN if column.opens else "")
    return GAP + (bars + GAP if bars else "")


def _end(line: Sequence[Column]) -> str:
    return GAP + (CLOSE if line[-1].closes else BAR)


def _placed(line: Sequence[Column]) -> list[Placed]:
    placed: list[Placed] = []
    end = 0
    for index, column in enumerate(line):
        start = end + len(_before(line, index))
        end = start + column.width
        placed.append(Placed(column, start, end))
    return placed


def _string(line: Sequence[Column], string: int) -> str:
    """One string of the system. Before a joined column the text stands to the right, to touch it."""
    text = ""
    for index, column in enumerate(line):
        touches = index + 1 < len(line) and line[index + 1].joined
        cell = column.cells.get(string, "")
        filled = cell.rjust(column.width, "-") if touches else cell.ljust(column.width, "-")
        text += _before(line, index) + filled
    return text + _end(line)


def _system(line: Sequence[Column], names: Sequence[str]) -> System:
    placed = _placed(line)
    indent = " " * len(names[0])
    end = _length(line)
    return System(
        over=tuple(indent + row for row in reversed(rows(above(placed), end))),
        strings=tuple(name + _string(line, n) for n, name in enumerate(names, start=1)),
        under=tuple(indent + row for row in rows(below(placed), end)),
    )
