"""`chapters.txt`: the chapters as lines of text, to paste under the recording: "0:00 Intro"."""

from __future__ import annotations

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.chapters import chapters
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.style import PLAIN, Style

FILE = "chapters.txt"


def render(lesson: Lesson, style: Style = PLAIN) -> str:
    """One line a chapter, the first at 0:00; hours where the recording has them."""
    return "".join(f"{clock(chapter.start)} {chapter.title}\n" for chapter in chapters(lesson))
