"""Counts as the grammar writes them."""

from __future__ import annotations

import pytest

from notesgen.settle.told import read_count


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (None, (1, "")),
        ("", (1, "")),
        ("3", (3, "")),
        ("3.0", (3, "")),
        ("3 or 4", (3, "3 or 4")),
        ("many", (1, "")),
    ],
)
def test_count(text: str | None, expected: tuple[int, str]) -> None:
    assert read_count(text) == expected
