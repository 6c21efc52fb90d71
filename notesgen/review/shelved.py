"""What the shelf says of each lesson: its title, and how many queries are left."""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct

from notesgen.decisions.folder import open_pack
from notesgen.errors import InputError
from notesgen.lesson.model import Lesson
from notesgen.packing import pack_folder
from notesgen.review.proof import is_open
from notesgen.review.room import Room


class Entry(Struct, frozen=True):
    """A lesson on the shelf. `queries` is None where it was not begun."""

    name: str
    title: str
    queries: int | None


def entries(room: Room) -> tuple[Entry, ...]:
    """All lessons of the folder, by name."""
    return tuple(_entry(captions, room) for captions in room.shelf.lessons())


def _entry(captions: Path, room: Room) -> Entry:
    opened = room.opened(captions)
    lesson = opened.desk.lesson if opened else _kept(captions)
    if lesson is None:
        return Entry(captions.name, captions.stem, None)
    return Entry(captions.name, lesson.facts.title or captions.stem, sum(map(is_open, lesson.flags)))


def _kept(captions: Path) -> Lesson | None:
    """The lesson as its pack has it."""
    try:
        return open_pack(pack_folder(str(captions))).lesson
    except InputError:
        return None
