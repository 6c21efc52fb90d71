"""The rich lesson in every text format, as reviewed by eye."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from notesgen.pack import markdown, tab
from notesgen.pack.layout.style import Style
from tests.golden import unused
from tests.pack.rich import LESSON

FOLDER = Path(__file__).with_name("golden")
MADE = {
    "tab.txt": lambda: tab.render(LESSON),
    "tab-narrow.txt": lambda: tab.render(LESSON, Style(44)),
    "notes.md": lambda: markdown.render(LESSON),
}


@pytest.mark.parametrize("name", MADE)
def test_the_rich_lesson(name: str, golden: Callable[[Path, bytes], None]) -> None:
    golden(FOLDER / name, MADE[name]().encode())


def test_no_golden_is_left_over() -> None:
    assert unused(FOLDER, MADE) == []
