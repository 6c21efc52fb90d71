"""What is said of what is assumed."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Lesson, Played
from notesgen.pack.layout.sounding.caveats import caveats
from notesgen.pack.layout.sounding.phrases import sounds
from tests.pack import bass, rich


def told(lesson: Lesson) -> list[str]:
    return [sentence.split(":")[0] for sentence in caveats(lesson, sounds(lesson))]


def test_what_was_not_said_is_named() -> None:
    assert told(rich.LESSON) == ["The rhythm was not said"]
    assert told(bass.LESSON) == ["Not all of the rhythm is known", "The tempo was not said"]


def test_what_is_known_needs_no_word() -> None:
    timed = tuple(
        replace(event, played=Played(event.start, event.end, beat=float(n)))
        for n, event in enumerate(rich.LESSON.events)
    )
    assert told(replace(rich.LESSON, events=timed)) == []
    assert told(replace(rich.LESSON, events=())) == []
