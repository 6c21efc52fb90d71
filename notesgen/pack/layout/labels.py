"""What stands above and below the strings: marks that span notes, counts of repeats, footnote numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby
from typing import TypeVar

from msgspec import Struct

from notesgen.lesson.model import Mark
from notesgen.pack.layout.columns import Placed

SPANS: tuple[tuple[Mark, str], ...] = (("palm-mute", "PM"), ("let-ring", "ring"), ("rake", "rake"))
POINTS: tuple[tuple[Mark, str], ...] = (("accent", ">"), ("staccato", "."))
T = TypeVar("T")


class Label(Struct, frozen=True):
    """Text that begins at `start`, in characters from the first bar."""

    start: int
    text: str


def above(placed: Sequence[Placed]) -> list[Label]:
    """Marks that have no sign on the string, those of single notes first; then the counts of repeats."""
    points = [
        Label(place.start, text)
        for mark, text in POINTS
        for place in placed
        if mark in place.column.event.marks
    ]
    spans = [label for mark, name in SPANS for label in _spans(placed, mark, name)]
    counts = [_count(place) for place in placed if place.column.closes]
    return points + spans + counts


def below(placed: Sequence[Placed]) -> list[Label]:
    """Footnote numbers, with dots as far as the same ones hold: "[1]......"."""
    return [
        Label(start, ("[" + ",".join(map(str, asked)) + "]").ljust(end - start, "."))
        for asked, start, end in _runs(placed, lambda place: place.column.asked)
    ]


def rows(labels: Iterable[Label], end: int) -> list[str]:
    """The labels on as few lines as keep them a space apart, the first ones on the first line.

    A label that would pass `end` is moved to the left as far as there is room.
    """
    lines: list[str] = []
    for label in labels:
        start = max(0, min(label.start, end - len(label.text)))
        row = next((i for i, line in enumerate(lines) if _free(line, start, len(label.text))), len(lines))
        if row == len(lines):
            lines.append("")
        lines[row] = _put(lines[row], start, label.text)
    return lines


def _spans(placed: Sequence[Placed], mark: Mark, name: str) -> Iterator[Label]:
    for _, start, end in _runs(placed, lambda place: mark in place.column.event.marks):
        dashes = end - start - len(name) - 1
        yield Label(start, name + "-" * dashes + "|" if dashes > 0 else name)


def _runs(placed: Sequence[Placed], key: Callable[[Placed], T]) -> Iterator[tuple[T, int, int]]:
    """Neighbours with the same, true key: (key, start of the first, end of the last)."""
    for found, run in groupby(placed, key):
        if found:
            first, *rest = run
            yield found, first.start, (rest[-1] if rest else first).end


def _count(place: Placed) -> Label:
    """How often a repeat is played, above the bar that closes it: gap, then two characters of bar."""
    text = f"x{place.column.closes}"
    return Label(place.end + 4 - len(text), text)


def _free(line: str, start: int, length: int) -> bool:
    """True when the label and a space on either side of it meet nothing on the line."""
    return not line[max(0, start - 1) : start + length + 1].strip()


def _put(line: str, start: int, text: str) -> str:
    return line[:start].ljust(start) + text + line[start + len(text) :]
