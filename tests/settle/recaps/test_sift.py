"""New notes told from retold ones, on short talks. The numbers of the talk tell which are which."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import Lesson
from notesgen.rehearsal.run import hear

FIRST = "5, 7 on the D. 8, 6 on the G."
CASES = [
    ("announced", "So that was 5, 7, 8, 6.", "", ()),
    ("announced, and one note left out", "So that was 5, 7, 6.", "", ()),
    ("announced, and one note differs", "So that was 5, 7, 9, 6.", "", ("told-differently",)),
    ("announced, but something else", "So that was fun. 3, 10 on the B.", "3 10", ()),
    ("hinted at, and to the letter", "So it's 5, 7, 8, 6.", "", ()),
    ("hinted at, but new", "So it's 10, 12 on the B.", "10 12", ()),
    ("from the top", "From the top. 5, 7, 8, 6.", "", ()),
    ("the next notes are new, alike as they are", "Then 5, 7 on the D.", "5 7", ()),
    ("again is played again", "Then 5, 7 on the D again.", "5 7", ()),
    ("a bare run to the letter", "5, 7, 8, 6.", "", ()),
    (
        "a bare run that nearly agrees is asked about",
        "5, 8, 7, 6.",
        "5 8 7 6",
        ("reference-unsure",),
    ),
    ("a heading ends the telling", "Next phrase. 5, 7 on the D.", "5 7", ()),
]


def later(lesson: Lesson) -> str:
    """The frets of all notes but the first four."""
    return " ".join(str(event.notes[0].fret) for event in lesson.events[4:])


@pytest.mark.parametrize(("why", "then", "new", "asked"), CASES)
def test_what_is_new(why: str, then: str, new: str, asked: tuple[str, ...]) -> None:
    lesson = hear(f"{FIRST} {then}").lesson
    assert later(lesson) == new, why
    kinds = ("told-differently", "reference-unsure")
    assert tuple(flag.kind for flag in lesson.flags if flag.kind in kinds) == asked


def test_numbers_told_over_are_recaps_in_the_ledger() -> None:
    lesson = hear(f"{FIRST} So that was 5, 7, 8, 6.").lesson
    assert [number.role for number in lesson.numbers] == ["fret"] * 4 + ["recap"] * 4
    assert all(number.event is None for number in lesson.numbers[4:])
