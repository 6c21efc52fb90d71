"""Bars as the measures of MusicXML, staff and tab one after the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from xml.etree.ElementTree import Element

from notesgen.lesson.model import Facts, Position
from notesgen.pack.layout.score import directions
from notesgen.pack.layout.score.attributes import attributes
from notesgen.pack.layout.score.bars import EIGHTHS, Bar
from notesgen.pack.layout.score.build import element
from notesgen.pack.layout.score.notes import staff_notes, tab_notes


def measures(bars: Sequence[Bar], facts: Facts) -> Iterator[Element]:
    """One measure a bar."""
    strings = max(len(facts.tuning), *(link.stroke.string for bar in bars for e in bar.links for link in e))
    boxes = list(facts.positions)
    for number, bar in enumerate(bars):
        before = bars[number - 1] if number else None
        after = bars[number + 1] if number + 1 < len(bars) else None
        told = [position for position in boxes if bar.title and position.start <= bar.events[0].start]
        boxes = [position for position in boxes if position not in told]
        short = {"implicit": "yes"} if bar.eighths < EIGHTHS else {}
        yield element(
            "measure",
            *_present(
                element("print", new_system="yes") if before and bar.title else None,
                _left(bar),
                attributes(bar, before, facts.instrument, strings),
            ),
            *(directions.opening(facts, bar.neck) if before is None else ()),
            *([directions.title(bar.title)] if bar.title else ()),
            *_boxes(told, bar),
            *_music(bar, before, after),
            *_present(_right(bar, after)),
            number=number + 1,
            **short,
        )


def _music(bar: Bar, before: Bar | None, after: Bar | None) -> Iterator[Element]:
    """The staff with its marks, then back to the start of the bar and the tab."""
    at = -1
    for note in staff_notes(bar):
        if note.find("chord") is None:
            if 0 <= at < len(bar.events):
                yield from directions.stops(bar, at, after)
            at += 1
            if at < len(bar.events):
                yield from directions.starts(bar, at, before)
        yield note
    if at < len(bar.events):
        yield from directions.stops(bar, at, after)
    yield element("backup", element("duration", bar.eighths))
    yield from tab_notes(bar)


def _boxes(told: Sequence[Position], bar: Bar) -> Iterator[Element]:
    return _present(*(directions.box(position, bar.neck) for position in told))


def _left(bar: Bar) -> Element | None:
    if not bar.opens:
        return None
    return element(
        "barline",
        element("bar-style", "heavy-light"),
        element("repeat", direction="forward"),
        location="left",
    )


def _right(bar: Bar, after: Bar | None) -> Element | None:
    """The end of a repeat; a double line where a phrase ends, the final line where the lesson does."""
    if bar.closes:
        repeat = element("repeat", direction="backward", times=bar.closes)
        return element("barline", element("bar-style", "light-heavy"), repeat, location="right")
    if after is None or after.title:
        style = "light-heavy" if after is None else "light-light"
        return element("barline", element("bar-style", style), location="right")
    return None


def _present(*found: Element | None) -> Iterator[Element]:
    return (one for one in found if one is not None)
