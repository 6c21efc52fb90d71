"""`captions.vtt`: the captions again, with misheard words and settled slips put right."""

from __future__ import annotations

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.mended import mended
from notesgen.pack.layout.style import PLAIN, Style
from notesgen.pack.layout.vtt import Timed, written

FILE = "captions.vtt"


def render(lesson: Lesson, style: Style = PLAIN) -> str | None:
    """The cues with their times; None where the captions are not at hand."""
    if style.transcript is None:
        return None
    cues = mended(lesson, style.transcript)
    return written((Timed(cue.start, cue.end, cue.text) for cue in cues), style.transcript.language)
