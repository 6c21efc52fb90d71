"""Files written whole or not at all."""

from __future__ import annotations

import os
import secrets
import shutil
from pathlib import Path

from notesgen.errors import InputError

LESSON = "lesson.json"
"""The name that a lesson's file has in every pack."""


def write_whole(path: str | Path, data: bytes) -> None:
    """Replace the file at `path` by `data`, so that a crash leaves either the old file or the new one.

    The data goes to a new file in the same folder, to the disk, then takes the name. Permissions of an
    existing file are kept; a link is followed. Raises InputError when the folder cannot be written to.
    """
    target = Path(path).resolve()
    part = target.with_name(f".{target.name}.{secrets.token_hex(4)}.part")
    try:
        _write_through(part, data)
        if target.exists():
            shutil.copymode(target, part)
        part.replace(target)
    except OSError as error:
        raise InputError(f"This file cannot be written: {error.strerror}.", str(path)) from error
    finally:
        part.unlink(missing_ok=True)


def _write_through(path: Path, data: bytes) -> None:
    """Write a new file and wait until the disk holds it."""
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
