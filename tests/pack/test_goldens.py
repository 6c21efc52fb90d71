"""Two lessons in the text formats, each edition, as reviewed by eye."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from notesgen.pack import captions, chapter_list, chapters, corrections, markdown, musicxml, tab
from notesgen.pack.layout.style import PLAIN, Style
from tests.golden import unused
from tests.pack.demo import lesson as demo
from tests.pack.demo import transcript
from tests.pack.rich import LESSON, SETTLED

FOLDER = Path(__file__).with_name("golden")
STUDENT = Style(edition="student")
# The demo's query makes its student's edition a draft.
MADE: dict[str, Callable[[], str]] = {
    "chapters.txt": lambda: chapter_list.render(LESSON),
    "chapters.vtt": lambda: chapters.render(LESSON),
    "demo-chapters.vtt": lambda: chapters.render(demo()),
    "corrections.md": lambda: corrections.render(LESSON) or "",
    "demo-corrections.md": lambda: corrections.render(demo()) or "",
    "demo-captions.vtt": lambda: captions.render(demo(), Style(transcript=transcript())) or "",
    "lesson.musicxml": lambda: musicxml.render(LESSON) or "",
    "demo-lesson.musicxml": lambda: musicxml.render(demo()) or "",
    "tab.txt": lambda: tab.render(LESSON),
    "tab-narrow.txt": lambda: tab.render(LESSON, Style(44)),
    "tab-student.txt": lambda: tab.render(SETTLED, STUDENT),
    "notes.md": lambda: markdown.render(LESSON),
    "notes-student.md": lambda: markdown.render(SETTLED, STUDENT),
    "demo-tab.txt": lambda: tab.render(demo(), PLAIN),
    "demo-tab-student.txt": lambda: tab.render(demo(), STUDENT),
    "demo-notes.md": lambda: markdown.render(demo(), PLAIN),
    "demo-notes-student.md": lambda: markdown.render(demo(), STUDENT),
}


@pytest.mark.parametrize("name", MADE)
def test_as_reviewed(name: str, golden: Callable[[Path, bytes], None]) -> None:
    golden(FOLDER / name, MADE[name]().encode())


def test_no_golden_is_left_over() -> None:
    assert unused(FOLDER, MADE) == []
