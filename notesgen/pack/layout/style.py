"""How a pack is wanted: what every format may ask beside the lesson."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from notesgen.captions.transcript import Transcript
from notesgen.lesson.model import Lesson

Edition = Literal["teacher", "student"]


class Style(Struct, frozen=True):
    """`width` is that of plain text, in characters. The teacher's edition shows flags, the student's none.
    `transcript` is there where the captions are at hand; a format that needs it makes nothing without."""

    width: int = 80
    edition: Edition = "teacher"
    transcript: Transcript | None = None

    @property
    def shows_flags(self) -> bool:
        """Whether questions and remarks stand in the pack."""
        return self.edition == "teacher"


PLAIN = Style()


def is_unsettled(lesson: Lesson) -> bool:
    """Whether queries are open. A student's edition made all the same says "draft" on every page."""
    return any(flag.level == "query" and flag.decided is None for flag in lesson.flags)
