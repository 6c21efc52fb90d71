"""A pack's folder as the place where decisions are kept: its draft, its decisions, the lesson of both."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct

from notesgen.decisions import kept, rewriting, store
from notesgen.decisions.making import Maker
from notesgen.decisions.model import Decision
from notesgen.decisions.settled import Applied, checked, settled
from notesgen.errors import InputError
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.files import LESSON
from notesgen.lesson.model import Lesson
from notesgen.lesson.store import decode
from notesgen.settle.settle import Settled


class Open(Struct, frozen=True):
    """A pack as it stands. `base` is the draft before any decision, by whose words decisions are made."""

    folder: Path
    draft: Settled
    base: Lesson
    decisions: tuple[Decision, ...]
    applied: Applied

    @property
    def lesson(self) -> Lesson:
        """The lesson with its decisions made."""
        return self.applied.lesson

    def decisions_on(self, flag: str) -> tuple[Decision, ...]:
        """The decision that answers the flag of that id, () where none does."""
        return tuple(made for name, made in self.applied.answers.items() if name == flag)

    def maker(self) -> Maker:
        """Makes decisions on this pack."""
        return Maker(self.base)


def open_pack(folder: Path) -> Open:
    """The pack in that folder. Raises InputError where there is none, or a file of it cannot be read."""
    return _opened(folder, _draft(folder))


def decide(pack: Open, entries: Sequence[store.Entry]) -> Open:
    """The pack with more decisions, which are on the disk when this returns. Raises InputError."""
    rewriting.add(pack.folder / store.FILE, entries)
    return _opened(pack.folder, pack.draft)


def take_back(pack: Open, decisions: Sequence[Decision]) -> Open:
    """The pack without these decisions. Raises InputError."""
    rewriting.remove(pack.folder / store.FILE, decisions)
    return _opened(pack.folder, pack.draft)


def _opened(folder: Path, draft: Settled) -> Open:
    decisions = store.read_decisions(folder / store.FILE)
    return Open(folder, draft, checked(draft), decisions, settled(draft, decisions))


def _draft(folder: Path) -> Settled:
    """The draft that the pack keeps; a lesson without decisions is its own."""
    data = _bytes(folder / kept.FILE)
    if data is not None:
        return kept.decode_draft(data, str(folder / kept.FILE))
    data = _bytes(folder / LESSON)
    if data is None:
        raise InputError("This is no pack; give the folder that notesgen draft has made.", str(folder))
    lesson = decode(data, str(folder / LESSON))
    if any(flag.decided for flag in lesson.flags) or any(e.origin == "decided" for e in lesson.events):
        raise InputError(f"This pack has lost its {kept.FILE}. {kept.AGAIN}", str(folder))
    return Settled(lesson, Evidence())


def _bytes(file: Path) -> bytes | None:
    try:
        return file.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        return None
    except (OSError, ValueError) as error:
        raise InputError("This file cannot be read.", str(file)) from error
