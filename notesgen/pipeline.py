"""The stages in order: captions, items, instructions, steps, lesson, checks. Each can be had by itself."""

from __future__ import annotations

from msgspec import Struct

from notesgen.captions.source import load_captions
from notesgen.captions.transcript import Transcript
from notesgen.lesson.model import Lesson
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Item


class Given(Struct, frozen=True):
    """What the user says where the captions do not. Texts as typed: "B minor", "drop D", "bass"."""

    key: str | None = None
    tuning: str | None = None
    capo: int | None = None
    instrument: str | None = None
    title: str | None = None


class Rooms(Struct, frozen=True):
    """One transcript, room by room."""

    transcript: Transcript
    items: tuple[Item, ...]
    instructions: tuple[Instruction, ...]
    lesson: Lesson


def draft_file(path: str, given: Given | None = None, language: str = "en") -> Lesson:
    """Captions file (or "-") to lesson. Raises InputError when the file cannot be used."""
    return draft(load_captions(path), given, language)


def draft(transcript: Transcript, given: Given | None = None, language: str = "en") -> Lesson:
    """One transcript to a flagged lesson."""
    return rooms(transcript, given, language).lesson


def rooms(transcript: Transcript, given: Given | None = None, language: str = "en") -> Rooms:
    """One transcript through every room, each room's result kept."""
    raise NotImplementedError
