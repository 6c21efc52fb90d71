"""The sound of a lesson as the page's player reads it."""

from __future__ import annotations

import msgspec

from notesgen.lesson.model import Lesson


def player_data(lesson: Lesson) -> str:
    """JSON by the phrase's id, safe to stand within <script type="application/json">."""
    text = msgspec.json.encode({phrase.id: {"beats": 0.0, "tones": []} for phrase in lesson.phrases}).decode()
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
