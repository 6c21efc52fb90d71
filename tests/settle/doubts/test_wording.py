"""How doubts are put into words."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import Event, Note
from notesgen.settle.doubts.wording import Wording, clock, flag

WORDING = Wording(("high E", "B", "G", "D", "A", "low E"))


def event(name: str, *places: tuple[int, int], start: float = 0.0, quote: str = "") -> Event:
    notes = tuple(Note(string, fret) for string, fret in places)
    return Event(name, start, start + 1, "p1", notes, quote=quote)


@pytest.mark.parametrize(
    ("string", "named"), [(1, "high E string"), (3, "G string"), (7, "7 string"), (0, "0 string")]
)
def test_string(string: int, named: str) -> None:
    assert WORDING.string(string) == named


def test_strings_and_notes() -> None:
    assert WORDING.strings((3, 2)) == "G string and B string"
    assert WORDING.notes(event("e1", (3, 9), (2, 10))) == "9 on the G string and 10 on the B string"


@pytest.mark.parametrize(
    ("seconds", "shown"), [(0.0, "0:00"), (59.9, "0:59"), (252.0, "4:12"), (3600.0, "60:00")]
)
def test_clock(seconds: float, shown: str) -> None:
    assert clock(seconds) == shown


def test_a_flag_spans_its_events_and_quotes_them_once() -> None:
    events = [
        event("e1", (3, 7), quote="7, 9 on the G"),
        event("e2", (3, 9), start=2.0, quote="7, 9 on the G"),
    ]
    made = flag("string-unsaid", "query", events, "Which?")
    assert (made.start, made.end, made.events) == (0.0, 3.0, ("e1", "e2"))
    assert made.quote == "7, 9 on the G"
    assert flag("string-unsaid", "query", events, "Which?", quote="other words").quote == "other words"
