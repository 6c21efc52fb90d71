"""The lesson from which a pack is made again: its file, and the captions beside it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from notesgen.errors import InputError
from notesgen.lesson.files import LESSON

if TYPE_CHECKING:
    from notesgen.captions.transcript import Transcript
    from notesgen.lesson.model import Lesson


def lesson_path(given: str) -> Path:
    """The `lesson.json` that is meant: the file itself, or the one in the folder of a pack.

    Raises InputError when the folder holds none, and for an empty path.
    """
    if not given:
        raise InputError("The path of the lesson is empty; give a lesson.json or the folder of a pack.")
    path = Path(given)
    try:
        if not path.is_dir():
            return path
        if (path / LESSON).exists():
            return path / LESSON
    except (OSError, ValueError):
        return path
    raise InputError(f"This folder holds no {LESSON}; give the folder of a pack.", given)


def standing_lesson(path: Path) -> Lesson:
    """The lesson of that file; in a pack that keeps its draft, with all answers as they stand now.

    Raises InputError when a file of the pack cannot be read, or is no lesson.
    """
    from notesgen.decisions import kept
    from notesgen.decisions.folder import open_pack

    lesson = read_lesson(path)
    if path.name != LESSON or not (path.parent / kept.FILE).exists():
        return lesson
    return open_pack(path.parent).lesson


def read_lesson(path: Path) -> Lesson:
    """The lesson in that file. Raises InputError when it cannot be read, or is no lesson."""
    from notesgen.lesson.sense import check_sense
    from notesgen.lesson.store import decode

    try:
        data = path.read_bytes()
    except FileNotFoundError:
        raise InputError(
            "There is no such file; give a lesson.json or the folder of a pack.", str(path)
        ) from None
    except PermissionError:
        raise InputError("This file may not be read; check its permissions.", str(path)) from None
    except (OSError, ValueError):
        raise InputError("This file cannot be read; check the path.", str(path)) from None
    if data.lstrip(b"\xef\xbb\xbf \t\r\n")[:1] != b"{":
        raise InputError(f"This is no lesson; give the {LESSON} of a pack, or captions to draft.", str(path))
    lesson = decode(data, str(path))
    check_sense(lesson, str(path))
    return lesson


def find_captions(lesson: Lesson, path: Path) -> Transcript | None:
    """The captions that the lesson names, beside its file or its folder; None where they cannot be read.

    Only a bare name is looked for: a lesson from elsewhere opens no file elsewhere. A name that the pack
    itself gives to a file is not looked for among its files.
    """
    from notesgen.captions.source import load_captions
    from notesgen.pack.outputs import outputs

    name = lesson.source.captions
    if not name or Path(name).name != name:
        return None
    folder = path.absolute().parent
    own = name in {output.file for output in outputs().values()}
    for place in (folder.parent,) if own else (folder, folder.parent):
        try:
            return load_captions(str(place / name))
        except InputError:
            continue
    return None
