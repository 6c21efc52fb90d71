"""Scale boxes read out string by string: places for the hand, no notes to play."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator
from itertools import pairwise

from notesgen.settle.box import HAND, LEAST_STRINGS, Box, Row, frets_of
from notesgen.settle.shared_boxes import shared_boxes
from notesgen.settle.step import Step
from notesgen.settle.told import Naming

ANNOUNCED_WITHIN = 30  # items behind the announcement of a box within which it begins without strings
SHORTLY = 15  # ... within which a box of few strings begins
CLOSE = 2  # items between the frets of a box that is read out without strings
BEHIND = 4  # items between the frets of a row and its string behind them: "again on the little E"
LEFT_TO_GUESS = 1  # rows that an announced box may leave out: "and so's the top one"
SHARED = 2  # strings told together as the last of a box
UNANNOUNCED = 5  # strings of a box that nobody announced: a row on four may as well be a run that is played
LONG_ROW = 6  # frets of a scale that is told along a string
SIDE_BY_SIDE = 2  # ... and strings along which it is told
SHIFTED = 2  # frets by which one of these may begin higher than another
UNNAMED = -1  # the string of a row that has none
SIX = 6  # strings, of which the outer two are tuned alike
_FARTHEST = 14  # items between the frets of one string and the name of the next


def find_boxes(
    steps: tuple[Step, ...], namings: tuple[Naming, ...], announced: tuple[int, ...] = (), strings: int = 0
) -> list[Box]:
    """All boxes in the order of the telling.

    `announced` are the items at which one was announced: it may be read out without the names of `strings`.
    """
    boxes: list[Box] = []
    for found in (
        _named_boxes(steps, _rows(steps, namings), announced, strings),
        _bare_boxes(steps, announced, strings),
        shared_boxes(steps, namings, announced),
        _closed_boxes(steps, strings),
    ):
        boxes += _apart_from(boxes, found)
    return sorted(boxes, key=lambda box: min(box.places))


def _apart_from(boxes: list[Box], others: list[Box]) -> list[Box]:
    """Those of the others that share no step with the boxes, each once."""
    taken = frozenset(place for box in boxes for place in box.places)
    apart = {min(box.places): box for box in others if box.places.isdisjoint(taken)}
    return list(apart.values())


def _named_boxes(
    steps: tuple[Step, ...], rows: list[Row], announced: tuple[int, ...], strings: int
) -> list[Box]:
    """Rows of a few frets on nearly all strings, and scales told along each string, up the neck.

    A box that was announced may have as few as two strings.
    """
    enough = min(UNANNOUNCED, strings or UNANNOUNCED)
    across = [
        run
        for run in _runs(steps, rows, _rises)
        if len(run) >= enough or (len(run) > 1 and _is_announced(steps, run, announced))
    ]
    along = [run for run in _runs(steps, rows, _climbs) if len(run) >= SIDE_BY_SIDE]
    return [Box(tuple(run)) for run in across + [run for run in along if _starts_alike(steps, run)]]


def _is_announced(steps: tuple[Step, ...], run: list[Row], announced: tuple[int, ...]) -> bool:
    """Whether a box was announced shortly before the run, and no note was told since.

    Behind one of few strings no other note goes on in its sentence.
    """
    first, last = run[0].places[0], run[-1].places[-1]
    if len(run) < LEAST_STRINGS and any(
        step.sentence == steps[last].sentence for step in steps[last + 1 : last + 2]
    ):
        return False
    before = steps[first - 1].end if first else 0
    said = announced[bisect_left(announced, before) : bisect_right(announced, steps[first].start)]
    return bool(said) and steps[first].start - said[-1] <= SHORTLY


def _runs(
    steps: tuple[Step, ...], rows: list[Row], belongs: Callable[[tuple[Step, ...], Row], bool]
) -> Iterator[list[Row]]:
    """Rows that belong to a box, on neighbouring strings, all in one direction."""
    run: list[Row] = []
    for row in rows:
        if run and not (belongs(steps, row) and _follows(steps, run, row)):
            yield run
            run = []
        if belongs(steps, row):
            run.append(row)
    yield run


def _bare_boxes(steps: tuple[Step, ...], announced: tuple[int, ...], strings: int) -> list[Box]:
    """Numbers in a row behind the announcement of a box: a rising row for each string, from low to high."""
    boxes = []
    for at in announced:
        rows = _bare_rows(steps, bisect_left(steps, at, key=lambda step: step.start), strings)
        close = bool(rows) and steps[rows[0][0]].start - at <= ANNOUNCED_WITHIN
        if close and strings and len(rows) >= strings - LEFT_TO_GUESS:
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
            at = rows[-1][-1]
        at += len(rows[0]) if rows else 1
    return boxes


def _is_closed(steps: tuple[Step, ...], rows: list[tuple[int, ...]]) -> bool:
    frets = [tuple(int(steps[place].frets[0]) for place in row) for row in rows]
    heights = [fret for row in frets for fret in row]
    rising = all(_rises(steps, Row(0, row)) for row in rows)
    return rising and frets[0] == frets[-1] and max(heights) - min(heights) <= HAND


def _bare_rows(steps: tuple[Step, ...], first: int, strings: int) -> list[tuple[int, ...]]:
    """The places of single notes without strings, close behind one another, cut where they fall.

    A string may be named where it is the one whose turn it is: "from the low string it's five eight"; the
    last ones may be told together: "and 5 8 on your two skinny ones".
    """
    rows: list[tuple[int, ...]] = []
    for place in range(first, len(steps)):
        step, before = steps[place], steps[place - 1]
        shared = len(rows) >= LEAST_STRINGS and len(step.voices) == SHARED
        due = ((), (strings,), (strings - len(rows),), (strings - len(rows) + 1,))
        bare = len(step.voices) == 1 and step.voices[0].named in due
        if "x" in step.frets or not (bare or shared) or (rows and step.start - before.end > CLOSE):
            break
        if rows and not shared and int(step.frets[0]) > int(before.frets[0]):
            rows[-1] = (*rows[-1], place)
        else:
            rows.append((place,))
    return rows


def _rows(steps: tuple[Step, ...], namings: tuple[Naming, ...]) -> list[Row]:
    """Steps gathered under the string that holds for them, or that is named right behind them."""
    rows: list[Row] = []
    for place, step in enumerate(steps):
        string = _string(step, namings, steps, place)
        if string and rows and rows[-1].string == string and _goes_on(steps, rows[-1], place):
            rows[-1] = Row(string, (*rows[-1].places, place))
        elif string:
            rows.append(Row(string, (place,)))
        elif rows and rows[-1].places[-1] == place - 1 and step.start - steps[place - 1].end <= CLOSE:
            if _is_higher(steps, place):
                rows[-1] = Row(rows[-1].string, (*rows[-1].places, place))
            else:
                rows.append(Row(UNNAMED, (place,)))
    rows = [_named_behind(steps, namings, row) if row.string == UNNAMED else row for row in rows]
    return [_beside(steps, row, rows[at + 1 : at + 2]) for at, row in enumerate(rows)]


def _beside(steps: tuple[Step, ...], row: Row, following: list[Row]) -> Row:
    """A row whose string has two candidates ("E"), on the one next to the row behind it."""
    candidates = steps[row.places[0]].voices[0].named
    close = [one for one in candidates for other in following if abs(one - other.string) == 1]
    return Row(close[0], row.places) if close and row.string in candidates else row


def _named_behind(steps: tuple[Step, ...], namings: tuple[Naming, ...], row: Row) -> Row:
    """A row with the string named right behind its frets: "and 3 and 5 again on the little E"."""
    last = steps[row.places[-1]]
    behind = namings[bisect_left(namings, last.end, key=_item) :][:1]
    for naming in behind:
        near = naming.at - last.end <= BEHIND and naming.sentence == last.sentence
        if near and len(naming.strings) == 1:
            return Row(naming.strings[0][0], row.places)
    return row


def _is_higher(steps: tuple[Step, ...], place: int) -> bool:
    """Whether the step lies above the one before it; what falls back begins a row of its own."""
    before, after = steps[place - 1].frets[0], steps[place].frets[0]
    return "x" in (before, after) or int(after) > int(before)


def _goes_on(steps: tuple[Step, ...], row: Row, place: int) -> bool:
    """Whether a step on the row's string belongs to it; a new sentence that falls back begins to play."""
    last = row.places[-1]
    if last != place - 1 or steps[place].sentence == steps[last].sentence:
        return last == place - 1
    return _is_higher(steps, place)


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
    frets = [fret for place in row.places for fret in steps[place].frets]
    if not 2 <= len(frets) <= 4 or not _is_scale(steps, row):
        return False
    return int(frets[-1]) - int(frets[0]) <= HAND


def _climbs(steps: tuple[Step, ...], row: Row) -> bool:
    """Whether the row tells a scale along its string, further than one hand reaches."""
    frets = frets_of(steps, row.places)
    return len(frets) >= LONG_ROW and _is_scale(steps, row) and frets[-1] - frets[0] > HAND


def _starts_alike(steps: tuple[Step, ...], rows: list[Row]) -> bool:
    """Whether the rows all begin down at the same place, as no run does that is played."""
    lowest = [frets_of(steps, row.places)[0] for row in rows]
    return max(lowest) - min(lowest) <= SHIFTED


def _is_scale(steps: tuple[Step, ...], row: Row) -> bool:
    """Whether the row rises from fret to fret, and nothing is said of how it is played."""
    frets = [fret for place in row.places for fret in steps[place].frets]
    if "x" in frets or any(steps[place].how != "pick" or steps[place].marks for place in row.places):
        return False
    return all(int(b) > int(a) for a, b in pairwise(frets))


def _follows(steps: tuple[Step, ...], run: list[Row], row: Row) -> bool:
    last = run[-1]
    step = row.string - last.string
    turns = len(run) > 1 and step != last.string - run[-2].string
    if UNNAMED in (row.string, last.string) or abs(step) != 1 or turns:
        return False
    first, before = steps[row.places[0]], steps[last.places[-1]]
    return first.start - before.end <= _FARTHEST
