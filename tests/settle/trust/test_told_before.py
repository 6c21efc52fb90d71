"""Rows of frets that come again."""

from __future__ import annotations

import pytest

from notesgen.settle.trust.told_before import ToldBefore

FRETS = [(5,), (7,), (8,), (5,), (3,), (7,), (8,), (5,)]


@pytest.mark.parametrize(
    ("size", "at", "since", "told"),
    [
        (2, 5, 5, True),  # 7 8, as at the beginning
        (2, 4, 4, False),
        (3, 7, 5, True),  # 7 8 5
        (3, 7, 3, False),  # ... which has not been told in full by then
        (3, 4, 4, False),
        (2, 0, 0, False),
    ],
)
def test_a_row_counts_once_it_was_told_in_full(size: int, at: int, since: int, told: bool) -> None:
    assert ToldBefore(FRETS, size).holds(at, since) is told


def test_a_lesson_shorter_than_a_row_tells_nothing_again() -> None:
    assert not ToldBefore([(5,)], 3).holds(0, 0)
