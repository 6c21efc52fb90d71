"""The lesson's chapters: an opening, then a chapter a phrase, to the end of the recording."""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.titles import is_scrap, titles

OPENING = "Intro"
WHOLE = "The lesson"


class Chapter(Struct, frozen=True):
    """Seconds of the recording, `start` a whole second, and what is taught there."""

    title: str
    start: float
    end: float


def chapters(lesson: Lesson) -> list[Chapter]:
    """In order, without overlap or gap, each of a second at least; the first begins at 0.

    What is played in passing between two phrases has no chapter of its own. Of phrases that begin within
    one second, the last gives the title.
    """
    starts = {0: OPENING if lesson.phrases else WHOLE}
    for phrase, title in sorted(zip(lesson.phrases, titles(lesson), strict=True), key=lambda p: p[0].start):
        if not is_scrap(phrase):
            starts[int(phrase.start)] = title
    end = max(lesson.source.duration, *(e.end for e in lesson.events), *(p.end for p in lesson.phrases), 0.0)
    marks = [*starts, max(end, max(starts) + 1)]
    return [Chapter(starts[int(start)], start, until) for start, until in pairwise(marks)]
