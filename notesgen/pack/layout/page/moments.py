"""Times of the recording, with a link to the place where the recording is to hand."""

from __future__ import annotations

from urllib.parse import quote

from msgspec import Struct

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.clock import clock


class Moment(Struct, frozen=True):
    """A time in words, and where a click leads; "" where there is no recording."""

    words: str
    link: str


def moment(seconds: float, lesson: Lesson) -> Moment:
    """Media Fragments URI 1.0 (W3C), 4.2.1: `file#t=12.5` begins to play there. The file is looked for
    beside the page."""
    media = lesson.source.media
    return Moment(clock(seconds), f"{quote(media, safe='')}#t={round(seconds, 2):g}" if media else "")
