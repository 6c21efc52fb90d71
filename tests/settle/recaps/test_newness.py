"""Runs that are spoken of rather than told are left out or asked about; plain tellings never are."""

from __future__ import annotations

import pytest

from notesgen.rehearsal.run import hear

TOLD = "On the D string, 5, 7, 9. Then on the G string, 6, 7, 9. And then the B string, 7, 8, 10."

TALK = [
    "If it buzzes, I go 5, 7, 9, 7.",
    "Five. Seven. Nine.",
    "I count it like 5, 7, 9, 6, 7.",
]
TELLING = [
    "Then on the high E string, play 5 and hammer on to 8.",
    "On the A string you play the third fret, then the fifth fret.",
    "Now slide from 5 to 9 on the high E string.",
]


@pytest.mark.parametrize("words", TALK)
def test_talk_adds_no_note_unasked(words: str) -> None:
    lesson = hear(f"{TOLD} {words}").lesson
    asked = {event for flag in lesson.flags if flag.level == "query" for event in flag.events}
    assert all(event.id in asked for event in lesson.events[9:])


@pytest.mark.parametrize("words", TELLING)
def test_a_plain_telling_is_new(words: str) -> None:
    lesson = hear(f"{TOLD} {words}").lesson
    assert len(lesson.events) == 11
    assert not [flag for flag in lesson.flags if flag.kind == "reference-unsure"]
