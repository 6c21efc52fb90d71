"""Scale boxes read out string by string: places for the hand, no notes to play."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from itertools import pairwise

from notesgen.settle.box import HAND, LEAST_STRINGS, Box, Row
from notesgen.settle.shared_boxes import shared_boxes
from notesgen.settle.step import Step
from notesgen.settle.told import Naming

ANNOUNCED_WITHIN = 30  # items behind the announcement of a box within which it begins without strings
CLOSE = 2  # items between the frets of a box that is read out without strings
SIX = 6  # strings, of which the outer two are tuned alike
_FARTHEST = 14  # items between the frets of one string and the name of the next


def find_boxes(
    steps: tuple[Step, ...], namings: tuple[Naming, ...], announced: tuple[int, ...] = (), strings: int = 0
) -> list[Box]:
    """All boxes in the order of the telling.

    `announced` are the items at which one was announced: it may be read out without the names of `strings`.
    """
    named = _named_boxes(steps, namings)
    announced_boxes = _bare_boxes(steps, announced, strings)
    announced_boxes += _apart_from(named, shared_boxes(steps, namings, announced))
    boxes = named + announced_boxes + _apart_from(announced_boxes, _closed_boxes(steps, strings))
    return sorted(boxes, key=lambda box: min(box.places))


def _apart_from(boxes: list[Box], others: list[Box]) -> list[Box]:
    """Those of the others that share no step with the boxes."""
    taken = frozenset(place for box in boxes for place in box.places)
    return [box for box in others if box.places.isdisjoint(taken)]


def _named_boxes(steps: tuple[Step, ...], namings: tuple[Naming, ...]) -> list[Box]:
    """Runs of rows on neighbouring strings, all in one direction, each rising by two frets or more."""
    boxes: list[Box] = []
    run: list[Row] = []
    for row in _rows(steps, namings):
        if run and not _follows(steps, run, row):
            boxes += _box(run)
            run = []
        if _rises(steps, row):
            run.append(row)
        else:
            boxes += _box(run)
            run = []
    return boxes + _box(run)


def _bare_boxes(steps: tuple[Step, ...], announced: tuple[int, ...], strings: int) -> list[Box]:
    """Numbers in a row behind the announcement of a box: a rising row for each string, from low to high."""
    boxes = []
    for at in announced:
        rows = _bare_rows(steps, bisect_left(steps, at, key=lambda step: step.start), strings)
        close = bool(rows) and steps[rows[0][0]].start - at <= ANNOUNCED_WITHIN
        if close and strings and len(rows) >= strings:
            box = Box(tuple(Row(strings - up, row) for up, row in enumerate(rows[:strings])))
            frets = [fret for row in box.frets(steps).values() for fret in row]
            if all(_rises(steps, row) for row in box.rows) and max(frets) - min(frets) <= HAND:
                boxes.append(box)
    return boxes


def _closed_boxes(steps: tuple[Step, ...], strings: int) -> list[Box]:
    """Boxes that nobody announced, known by their shape: a row for every string and nothing more.

    The outer strings of six are tuned alike, so that a scale has the same frets on both; what is played
    is hardly ever that regular.
    """
    boxes: list[Box] = []
    at = 0
    while strings == SIX and at < len(steps):
        rows = _bare_rows(steps, at, strings)
        if len(rows) == strings and rows[0] and _is_closed(steps, rows):
            boxes.append(Box(tuple(Row(strings - up, row) for up, row in enumerate(rows))))
        at += max(1, sum(len(row) for row in rows))
    return boxes


def _is_closed(steps: tuple[Step, ...], rows: list[tuple[int, ...]]) -> bool:
    frets = [tuple(int(steps[place].frets[0]) for place in row) for row in rows]
    heights = [fret for row in frets for fret in row]
    rising = all(_rises(steps, Row(0, row)) for row in rows)
    return rising and frets[0] == frets[-1] and max(heights) - min(heights) <= HAND


def _bare_rows(steps: tuple[Step, ...], first: int, strings: int) -> list[tuple[int, ...]]:
    """The places of single notes without strings, close behind one another, cut where they fall.

    The lowest string may be named: "from the low string it's five eight, five seven".
    """
    rows: list[tuple[int, ...]] = []
    for place in range(first, len(steps)):
        step, before = steps[place], steps[place - 1]
        bare = len(step.voices) == 1 and step.voices[0].fret != "x"
        bare = bare and step.voices[0].named in ((), (strings,))
        if not bare or (rows and step.start - before.end > CLOSE):
            break
        if rows and int(step.frets[0]) > int(before.frets[0]):
            rows[-1] = (*rows[-1], place)
        else:
            rows.append((place,))
    return rows


def _box(run: list[Row]) -> list[Box]:
    return [Box(tuple(run))] if len(run) >= LEAST_STRINGS else []


def _rows(steps: tuple[Step, ...], namings: tuple[Naming, ...]) -> list[Row]:
    """Steps gathered under the string that holds for them."""
    rows: list[Row] = []
    for place, step in enumerate(steps):
        string = _string(step, namings, steps, place)
        if string and rows and rows[-1].string == string and _goes_on(steps, rows[-1], place):
            rows[-1] = Row(string, (*rows[-1].places, place))
        elif string:
            rows.append(Row(string, (place,)))
        elif rows and rows[-1].places[-1] == place - 1 and step.start - steps[place - 1].end <= 2:
            rows[-1] = Row(rows[-1].string, (*rows[-1].places, place))
    return rows


def _goes_on(steps: tuple[Step, ...], row: Row, place: int) -> bool:
    """Whether a step on the row's string belongs to it; a new sentence that falls back begins to play."""
    last = row.places[-1]
    if last != place - 1 or steps[place].sentence == steps[last].sentence:
        return last == place - 1
    before, after = steps[last].frets[0], steps[place].frets[0]
    return "x" in (before, after) or int(after) > int(before)


def _string(step: Step, namings: tuple[Naming, ...], steps: tuple[Step, ...], place: int) -> int | None:
    """The string named for the step, or on its own between the step before and this one."""
    if len(step.voices) != 1:
        return None
    if step.voices[0].named:
        return step.voices[0].named[0]
    since = steps[place - 1].start if place else -1
    first = bisect_right(namings, since, key=_item)
    between = namings[first : bisect_left(namings, step.start, key=_item)]
    named = [n.strings[0][0] for n in between if n.sentence == step.sentence and len(n.strings) == 1]
    return named[-1] if named else None


def _item(naming: Naming) -> int:
    return naming.at


def _rises(steps: tuple[Step, ...], row: Row) -> bool:
    frets = [steps[place].frets[0] for place in row.places]
    if any(fret == "x" for fret in frets) or not 2 <= len(frets) <= 4:
        return False
    if any(steps[place].how != "pick" or steps[place].marks for place in row.places):
        return False
    return all(int(b) > int(a) for a, b in pairwise(frets)) and int(frets[-1]) - int(frets[0]) <= 5


def _follows(steps: tuple[Step, ...], run: list[Row], row: Row) -> bool:
    last = run[-1]
    step = row.string - last.string
    if abs(step) != 1 or (len(run) > 1 and step != last.string - run[-2].string):
        return False
    first, before = steps[row.places[0]], steps[last.places[-1]]
    return first.start - before.end <= _FARTHEST
