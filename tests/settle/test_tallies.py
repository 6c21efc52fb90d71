"""Counts and names in a row, tied to the notes that they sum up."""

from __future__ import annotations

import pytest

from notesgen.rehearsal.run import hear

QUIET: list[str] = []
COUNTS = [
    ("one short", "8, 7, 5 on the B. That's four notes.", ["count-mismatch"]),
    ("one too many", "It's three notes: 8, 7, 5, 3 on the B.", ["count-mismatch"]),
    ("right", "8, 7, 5 on the B. That's three notes.", QUIET),
    ("announced", "Here's a four-note lick. 8, 7, 5 on the B, 7 on the G.", QUIET),
    ("over two sentences", "8, 7, 5 on the B. 7, 5 on the G. So that's five notes.", QUIET),
    ("of the scale", "The scale has nice notes, it's six notes in all.", QUIET),
]


@pytest.mark.parametrize(("why", "heard", "kinds"), COUNTS)
def test_counts(why: str, heard: str, kinds: list[str]) -> None:
    found = [flag.kind for flag in hear(heard).lesson.flags if flag.kind == "count-mismatch"]
    assert found == kinds, why


NAMES = [
    ("the last is another", "15 on the G, pull off to 14, pull off to 13. That is B flat, A, G.", True),
    ("they agree", "15 on the G, pull off to 14, pull off to 12. That is B flat, A, G.", False),
    ("before the notes", "The notes are B flat, A, G. 15 on the G, 14 on the G, 13 on the G.", False),
    ("of a scale", "15 on the G, 14 on the G, 13 on the G. The scale is C, D, E, F, G.", False),
]


@pytest.mark.parametrize(("why", "heard", "asked"), NAMES)
def test_names_in_a_row(why: str, heard: str, asked: bool) -> None:
    messages = [flag.message for flag in hear(heard).lesson.flags if flag.level == "query"]
    assert any("You name the notes" in message for message in messages) == asked, why
