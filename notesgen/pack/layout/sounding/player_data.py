"""The sound of a lesson as the page's player reads it."""

from __future__ import annotations

import msgspec

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.sounding.phrases import sounds

# HTML looks within <script> for "</script" and "<!--"; JavaScript takes the two separators for ends of line.
UNSAFE = {"<": "\\u003c", "\u2028": "\\u2028", "\u2029": "\\u2029"}


def player_data(lesson: Lesson) -> str:
    """JSON by the phrase's id, safe to stand within <script type="application/json">.

    Each phrase is a `tone.Sound`, whose fields and units hold; what has its default value is left out.
    """
    text = msgspec.json.encode({sound.phrase: sound for sound in sounds(lesson)}).decode()
    return text.translate({ord(sign): escape for sign, escape in UNSAFE.items()})
