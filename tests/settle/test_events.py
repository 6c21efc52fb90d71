"""Flags numbered in the order of the lesson, and the events that point at them."""

from __future__ import annotations

from notesgen.lesson.model import Event, Flag, Note, Repeat
from notesgen.settle.events import Written, number_flags, write_repeats
from notesgen.settle.told import Loop

EVENTS = tuple(Event(f"e{n}", n, n + 1, "p1", (Note(3, n),)) for n in range(1, 5))


def flag(start: float, *events: str) -> Flag:
    return Flag("", "string-unsaid", "query", start, start + 1, events, "", "")


def test_flags_are_numbered_by_their_start() -> None:
    events, flags = number_flags(EVENTS, (flag(3, "e3"), flag(1, "e1", "e2"), flag(2, "e2")))
    assert [(one.id, one.events) for one in flags] == [("f1", ("e1", "e2")), ("f2", ("e2",)), ("f3", ("e3",))]
    assert [event.flags for event in events] == [("f1",), ("f1", "f2"), ("f3",), ()]


def test_numbering_twice_changes_nothing() -> None:
    once = number_flags(EVENTS, (flag(3, "e3"), flag(1, "e1")))
    assert number_flags(*once) == once


def test_repeats_name_the_events_that_are_left() -> None:
    written = Written(EVENTS, (0, 2, 3, 7))
    loops = (Loop(0, 3, 3), Loop(4, 6, 2), Loop(7, 9, 4))
    assert write_repeats(loops, written) == (Repeat("e1", "e3", 3), Repeat("e4", "e4", 4))
