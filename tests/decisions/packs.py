"""Drafts of real captions, and decisions on them, for tests."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

from notesgen.captions.source import load_captions
from notesgen.captions.transcript import Transcript
from notesgen.decisions.making import Maker
from notesgen.decisions.model import Decision
from notesgen.decisions.settled import checked
from notesgen.lesson.model import Lesson
from notesgen.pipeline import Rooms, rooms
from tests.accuracy.cases import find

FIXTURES = Path(__file__).parents[2] / "fixtures"
LESSONS = ("melody-bm", "blues-a", "metal-am", "twang-a", "ballad-gm", "soul-bass", "jazz-bb")


@cache
def drafted(name: str) -> Rooms:
    """The lesson of that name through every room."""
    return rooms(captions(name))


@cache
def captions(name: str) -> Transcript:
    """The captions of a lesson of the fixtures, or of the demo."""
    if name == "harbour":
        return load_captions(str(FIXTURES / "demo" / "harbour.vtt"))
    return load_captions(str(find(names=[name])[0].captions))


def base(name: str) -> Lesson:
    """The draft before any decision."""
    return checked(drafted(name).drafted)


def all_answers(lesson: Lesson, option: int = -1) -> Iterator[Decision]:
    """An answer to every query of a draft: the option of that place."""
    maker = Maker(lesson)
    for flag in lesson.flags:
        if flag.level == "query" and flag.options:
            yield maker.answer(flag, option % len(flag.options))
