"""notes.html of two lessons, and one drawing, as reviewed by eye."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from notesgen.lesson.model import Lesson
from notesgen.pack import html
from notesgen.pack.layout.drawing.tab import tab_figures
from notesgen.pack.layout.sheet import lay_out
from notesgen.pack.layout.style import PLAIN, Style
from tests.golden import unused
from tests.pack.rich import LESSON
from tests.pack.test_goldens import STUDENT, demo

FOLDER = Path(__file__).with_name("golden-html")


def page(lesson: Lesson, style: Style) -> str:
    """The page with each drawing as its words, and without script, style and sound, which are no words."""
    told = re.sub(r'<svg [^>]*aria-label="([^"]*)".*?</svg>', r"[\1]", html.render(lesson, style), flags=re.S)
    bare = re.sub(r"<(script|style)\b[^>]*>.*?</\1>\n", "", told, flags=re.S)
    return re.sub("sha256-[^']*", "sha256-...", bare)


def drawing(phrase: int) -> str:
    """One phrase of the rich lesson, an element a line."""
    sheet = lay_out(LESSON)
    figures = tab_figures(sheet.passages[phrase], sheet, 430)
    return "".join(figure.svg.replace("><", ">\n<") + "\n" for figure in figures)


MADE: dict[str, Callable[[], str]] = {
    "rich.html": lambda: page(LESSON, PLAIN),
    "demo-student.html": lambda: page(demo(), STUDENT),
    "bends.svg.txt": lambda: drawing(1),
}


@pytest.mark.parametrize("name", MADE)
def test_as_reviewed(name: str, golden: Callable[[Path, bytes], None]) -> None:
    golden(FOLDER / name, MADE[name]().encode())


def test_no_golden_is_left_over() -> None:
    assert unused(FOLDER, MADE) == []
