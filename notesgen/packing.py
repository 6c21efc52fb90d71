"""The pack of one lesson: every file rendered first, then each written whole."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from notesgen.errors import InputError
from notesgen.lesson.files import LESSON, write_whole

if TYPE_CHECKING:
    from notesgen.lesson.model import Lesson
    from notesgen.pack.layout.style import Style
    from notesgen.pack.outputs import Output
    from notesgen.settle.settle import Settled

STUDENT = "student"
"""The folder within a pack for what students get."""


def pack_folder(captions: str) -> Path:
    """The folder beside the captions that bears their name: `takes/harbour.vtt` -> `takes/harbour`.

    Raises InputError for standard input, which has no name, and for a path that names no file.
    """
    if captions == "-":
        raise InputError("The captions come from standard input, so say where the pack goes: --out DIR.")
    path = Path(captions)
    if path.name in ("", ".."):
        told = "This is a folder" if captions else "The path of the captions is empty"
        raise InputError(f"{told}; give a caption file.", captions or None)
    return path.with_suffix("") if path.suffix else path.with_name(f"{path.name}-pack")


def write_pack(
    lesson: Lesson,
    folder: Path,
    style: Style,
    wanted: Iterable[Output] | None = None,
    drafted: Settled | None = None,
) -> list[Path]:
    """Writes the pack with its `lesson.json`, in all formats unless some are wanted, and returns its files.

    `drafted` is a new draft, before any decision; the one that the folder keeps stays where none is given.
    Raises InputError when they cannot be written there.
    """
    from notesgen.decisions import kept
    from notesgen.lesson.store import encode
    from notesgen.pack.outputs import outputs

    formats = outputs().values() if wanted is None else wanted
    draft = {} if drafted is None else {kept.FILE: kept.encode_draft(drafted)}
    return _write({**_rendered(lesson, style, formats), **draft, LESSON: encode(lesson)}, folder)


def write_files(lesson: Lesson, folder: Path, style: Style, wanted: Iterable[Output]) -> list[Path]:
    """Writes the lesson in these formats, and nothing beside them. Raises InputError as `write_pack` does."""
    return _write(_rendered(lesson, style, wanted), folder)


def _rendered(lesson: Lesson, style: Style, wanted: Iterable[Output]) -> dict[str, bytes]:
    """What goes into each file; a format that makes nothing of this lesson has none."""
    made = {output.file: output.data(lesson, style) for output in wanted}
    return {file: data for file, data in made.items() if data is not None}


def _write(content: Mapping[str, bytes], folder: Path) -> list[Path]:
    if content:
        make_folder(folder)
    for name, data in content.items():
        write_whole(folder / name, data)
    return [folder / name for name in content]


def make_folder(folder: Path) -> None:
    """Makes the folder, and those above it, where they are missing. Raises InputError when that fails."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        told = "This is a file, not a folder"
    except NotADirectoryError:
        told = "A part of this path is a file, not a folder"
    except PermissionError:
        told = "You may not make this folder"
    except (OSError, ValueError):
        told = "This folder cannot be made"
    else:
        return
    raise InputError(f"{told}; choose another with --out.", str(folder))
