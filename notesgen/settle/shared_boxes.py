"""Scale boxes whose strings share frets: "12 and 15 on the E and the B, 12 and 14 on the G and the D"."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from itertools import pairwise

from notesgen.settle.box import HAND, LEAST_STRINGS, Box, Row, frets_of
from notesgen.settle.step import Step
from notesgen.settle.told import Naming

CLOSE = 6  # items between the frets of one box
WITHIN = 10  # ... where the names of strings may stand between them, or before its announcement
FEWEST, MOST = 2, 4  # frets of one string


def shared_boxes(
    steps: tuple[Step, ...], namings: tuple[Naming, ...], announced: tuple[int, ...]
) -> list[Box]:
    """Boxes right behind their announcements, or right before them: "that's the box"."""
    runs = dict.fromkeys(run for at in announced for run in _runs(steps, at))
    return [box for run in runs for box in _boxes(steps, namings, run)]


def _runs(steps: tuple[Step, ...], at: int) -> Iterator[range]:
    """The steps told close together behind item `at`, and those before it."""
    first = end = bisect_left(steps, at, key=lambda step: step.start)
    while end < len(steps) and steps[end].start - (steps[end - 1].end if end > first else at) <= CLOSE:
        end += 1
    yield range(first, end)
    start = first
    while start and (steps[start].start if start < first else at) - steps[start - 1].end <= WITHIN:
        start -= 1
    yield range(start, first)


def _boxes(steps: tuple[Step, ...], namings: tuple[Naming, ...], run: range) -> Iterator[Box]:
    """The longest box that the steps read out, if there is one."""
    rows = _rows(steps, namings, run)
    for size in range(len(rows), LEAST_STRINGS - 1, -1):
        for first in range(len(rows) - size + 1):
            if _is_box(steps, rows[first : first + size]):
                yield Box(tuple(rows[first : first + size]))
                return


def _rows(steps: tuple[Step, ...], namings: tuple[Naming, ...], run: range) -> list[Row]:
    """The frets gathered up to each naming of strings, for each of these strings."""
    rows: list[Row] = []
    places: list[int] = []
    for at, place in enumerate(run):
        places.append(place)
        end = steps[run[at + 1]].start if at + 1 < len(run) else steps[place].end + WITHIN
        named = _strings(steps[place], namings, end)
        follows = at + 1 < len(run) and _strings(steps[run[at + 1]], (), 0) == named
        if named and not follows:
            rows += [Row(string, tuple(places)) for string in named]
            places = []
    return rows


def _strings(step: Step, namings: tuple[Naming, ...], end: int) -> tuple[int, ...]:
    """The strings of the step, with those named alone behind it, up to item `end`: each next to the last."""
    first = bisect_left(namings, step.end, key=lambda naming: naming.at)
    behind = namings[first : bisect_right(namings, end - 1, key=lambda naming: naming.at)]
    candidates = [voice.named for voice in step.voices]
    candidates += [strings for naming in behind for strings in naming.strings]
    named: list[int] = []
    for strings in filter(None, candidates):
        beside = named[-1] if named else strings[0]
        named.append(min(strings, key=lambda string: abs(string - beside)))
    return tuple(dict.fromkeys(named))


def _is_box(steps: tuple[Step, ...], rows: list[Row]) -> bool:
    """Whether the rows are of neighbouring strings in one direction, under one hand, and only read out."""
    told = [steps[place] for row in rows for place in row.places]
    frets = [frets_of(steps, row.places) for row in rows]
    heights = [fret for row in frets for fret in row]
    ways = {second.string - first.string for first, second in pairwise(rows)}
    read_out = all(step.how == "pick" for step in told)
    sizes = all(FEWEST <= len(row) <= MOST and list(row) == sorted(row) for row in frets)
    return read_out and sizes and ways in ({1}, {-1}) and max(heights) - min(heights) <= HAND
