"""The pack of one lesson: every file rendered first, then each written whole."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from notesgen.errors import InputError

if TYPE_CHECKING:
    from notesgen.lesson.model import Lesson

LESSON = "lesson.json"


def pack_folder(captions: str) -> Path:
    """The folder beside the captions that bears their name: `takes/harbour.vtt` -> `takes/harbour`.

    Raises InputError for standard input, which has no name.
    """
    if captions == "-":
        raise InputError("The captions come from standard input, so say where the pack goes: --out DIR.")
    path = Path(captions)
    return path.with_suffix("") if path.suffix else path.with_name(f"{path.name}-pack")


def write_pack(lesson: Lesson, folder: Path, width: int) -> list[Path]:
    """Writes the pack and returns its files. Raises InputError when they cannot be written there."""
    from notesgen.lesson.files import write_whole
    from notesgen.lesson.store import encode
    from notesgen.pack.outputs import outputs

    content = {output.file: output.data(lesson, width) for output in outputs().values()}
    content[LESSON] = encode(lesson)
    make_folder(folder)
    for name, data in content.items():
        write_whole(folder / name, data)
    return [folder / name for name in content]


def make_folder(folder: Path) -> None:
    """Makes the folder, and those above it, where they are missing. Raises InputError when that fails."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        raise InputError("This is a file, not a folder; choose another with --out.", str(folder)) from None
    except (OSError, ValueError) as error:
        raise InputError(f"This folder cannot be made ({error}); choose another.", str(folder)) from None
