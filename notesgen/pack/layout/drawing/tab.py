"""A passage as an engraved tab."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree import ElementTree as ET

from msgspec.structs import replace

from notesgen.pack.layout.columns import columns
from notesgen.pack.layout.drawing import ink
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.bends import bends
from notesgen.pack.layout.drawing.figure import Figure
from notesgen.pack.layout.drawing.joins import joins
from notesgen.pack.layout.drawing.letters import letters
from notesgen.pack.layout.drawing.numbers import numbers
from notesgen.pack.layout.drawing.pencil import pencil
from notesgen.pack.layout.drawing.shelves import Shelved, Sign, height, shelved
from notesgen.pack.layout.drawing.spacing import Line, lines
from notesgen.pack.layout.drawing.spans import spans
from notesgen.pack.layout.drawing.staff import margin, staff
from notesgen.pack.layout.drawing.strikes import Strike, strikes
from notesgen.pack.layout.sheet import Passage, Sheet
from notesgen.pack.layout.steps import steps

RIM = 1.0  # right of the last bar, for its stroke
Strikes = list[tuple[Strike, ...]]


def tab_figures(passage: Passage, sheet: Sheet, width: float) -> tuple[Figure, ...]:
    """The passage in lines of at most `width` points, one drawing a line; none where it has no notes.

    Each event is one <g data-event="..."> with an unseen rectangle of class "place" over its column, to
    point at or to tint. Open questions are pencilled in where the sheet has them.
    """
    broken = lines(columns(passage, sheet), margin(sheet.labels), width - RIM)
    return tuple(
        _figure(line, played, passage, sheet, f"line {at} of {len(broken)}" if len(broken) > 1 else "")
        for at, (line, played) in enumerate(zip(broken, strikes(broken), strict=True), start=1)
    )


def _figure(line: Line, played: Strikes, passage: Passage, sheet: Sheet, which: str) -> Figure:
    shelves = shelved(_signs(line, played))
    top = -m.CLEAR - height(shelves) * m.ROW - m.EDGE + (m.ROW - m.SMALL if shelves else m.EDGE / 2)
    bottom = (len(sheet.labels) - 1) * m.SPACE + m.EDGE + 2
    marks = pencil(line, len(sheet.labels))
    drawn = [
        ink.group(staff(line, (s for spot in played for s in spot), sheet.labels), class_="staff"),
        *(_event(line, at, spot, shelves, bottom) for at, spot in enumerate(played)),
        ink.group(element for shelf in shelves if not shelf.sign.event for element in _drawn(shelf)),
        *marks,
    ]
    title = ", ".join(part for part in ("Tab", passage.title, which) if part)
    return ink.document(
        drawn,
        line.right + RIM,
        bottom - top + (m.BELOW - m.EDGE if marks else 0),
        title,
        _words(line, passage, sheet),
        top,
    )


def _signs(line: Line, played: Strikes) -> list[Sign]:
    signs: list[Sign] = []
    for at, spot in enumerate(played):
        event = line.spots[at].column.event.id
        until = line.spots[at + 1].left - 3 if at + 1 < len(line.spots) else line.right
        signs += bends(spot, event) + letters(spot, until, event)
    return signs + spans(line)


def _event(
    line: Line, at: int, spot: Sequence[Strike], shelves: Sequence[Shelved], bottom: float
) -> ET.Element:
    here = line.spots[at]
    left = line.left if at == 0 else (line.spots[at - 1].x + here.x) / 2
    right = line.right if at + 1 == len(line.spots) else (here.x + line.spots[at + 1].x) / 2
    place = ink.area(left, -m.CLEAR, right - left, bottom + m.CLEAR, class_="place")
    event = here.column.event.id
    signs = [element for shelf in shelves if shelf.sign.event == event for element in _drawn(shelf)]
    return ink.group([place, *joins(spot), *numbers(spot), *signs], data_event=event)


def _drawn(shelf: Shelved) -> list[ET.Element]:
    return shelf.sign.draw(-m.CLEAR - shelf.row * m.ROW)


def _words(line: Line, passage: Passage, sheet: Sheet) -> str:
    """The line read out. The sheet holds the strings' names only as labels, "e" for the thinnest E."""
    events = tuple(spot.column.event for spot in line.spots)
    tuning = [label.strip()[:1].upper() + label.strip()[1:] for label in sheet.labels if label[:1].isalpha()]
    return ". ".join(step.words for step in steps(replace(passage, events=events), sheet, tuning)) + "."
