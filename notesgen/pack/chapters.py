"""`chapters.vtt`: the chapters for a player (W3C WebVTT, section 4.3: chapter titles text)."""

from __future__ import annotations

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.chapters import chapters
from notesgen.pack.layout.style import PLAIN, Style
from notesgen.pack.layout.vtt import Timed, written

FILE = "chapters.vtt"


def render(lesson: Lesson, style: Style = PLAIN) -> str:
    """One cue a chapter, in order and without overlap."""
    return written(Timed(chapter.start, chapter.end, chapter.title) for chapter in chapters(lesson))
