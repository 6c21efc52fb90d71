"""Notes in short form are read back as written."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.decisions.notation import parse_notes, short
from notesgen.lesson.model import Note

AMOUNTS = st.sampled_from((0.5, 1.0, 1.5, 2.0, 3.0))
NOTES = st.builds(
    Note,
    string=st.integers(1, 12),
    fret=st.integers(0, 30) | st.just("x"),
    how=st.none() | st.sampled_from(("pick", "bend", "pre-bend", "trill", "hammer-on")),
    bend=st.none() | AMOUNTS,
    to=st.none() | st.integers(0, 30),
)


@given(st.lists(NOTES, min_size=1, max_size=6, unique_by=lambda note: note.string))
def test_what_is_written_is_read(notes: list[Note]) -> None:
    assert parse_notes(short(notes)) == tuple(notes)


@pytest.mark.parametrize(
    ("text", "notes"),
    [
        ("2/8", (Note(2, 8),)),
        ("6/x", (Note(6, "x"),)),
        ("2/120", (Note(2, 120),)),
        ("3/9:bend=2 2/7", (Note(3, 9, "bend", 2.0), Note(2, 7))),
        ("3/9:by=0.5", (Note(3, 9, None, 0.5),)),
        ("3/5:trill:to=7", (Note(3, 5, "trill", None, 7),)),
    ],
)
def test_the_short_form(text: str, notes: tuple[Note, ...]) -> None:
    assert parse_notes(text) == notes


@pytest.mark.parametrize("text", ["", "2", "2/", "/8", "0/5", "2/8 2/9", "2/8:hammered", "2-8", "2/8:to=x"])
def test_what_is_no_notes(text: str) -> None:
    assert parse_notes(text) is None
