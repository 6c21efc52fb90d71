"""What stands in where the lesson does not say how it is played, in a teacher's words."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.sounding.phrases import tempo
from notesgen.pack.layout.sounding.tone import Sound


def caveats(lesson: Lesson, made: Sequence[Sound]) -> tuple[str, ...]:
    """Sentences on what is assumed in `made`, the sounds of the lesson; () where all of it is known."""
    return (*_rhythm(made), *_tempo(lesson, made))


def _rhythm(made: Sequence[Sound]) -> list[str]:
    if made and all(sound.even for sound in made):
        return ["The rhythm was not said: even eighth notes stand in for it."]
    if any(sound.even for sound in made):
        return ["Not all of the rhythm is known: even eighth notes stand in where it is not."]
    return []


def _tempo(lesson: Lesson, made: Sequence[Sound]) -> list[str]:
    if not made or lesson.facts.tempo:
        return []
    return [f"The tempo was not said: {tempo(lesson):g} beats a minute stand in for it."]
