"""`decisions.toml` rewritten in another order or with less in it, every table that stays as it was typed.

The file is cut into its tables as text: reading it into a document and writing that out takes longer than a
reader waits for.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from pathlib import Path

from notesgen.decisions.locked import locked
from notesgen.decisions.model import Decision
from notesgen.decisions.store import HEADER, Entry, parse, written
from notesgen.errors import InputError
from notesgen.lesson.files import write_whole

_TABLE = re.compile(r"[ \t]*\[\[[ \t]*decision[ \t]*\]\]")


def rewrite(
    path: Path, change: Callable[[tuple[Decision, ...]], Sequence[Entry]]
) -> tuple[Decision, ...]:
    """Writes what `change` makes of the decisions that stand there, in its order, and returns them.

    It waits for other writers, and reads what they wrote. The file is written whole, then takes the old one's
    name. Raises InputError.
    """
    with locked(path):
        text = _text(path)
        held = parse(text.encode(), str(path))
        head, *tables = _tables(text)
        if len(tables) != len(held):
            raise InputError("A text in this file holds [[decision]] on a line of its own.", str(path))
        typed = dict(zip(held, tables, strict=True))
        wanted = change(held)
        parts = [head, *(typed.get(entry.decision) or written(entry) for entry in wanted)]
        write_whole(path, "\n".join(part.strip("\n") + "\n" for part in parts).encode())
    return tuple(entry.decision for entry in wanted)


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8-sig")
    except FileNotFoundError:
        return HEADER
    except UnicodeDecodeError as error:
        raise InputError("This is not UTF-8 text; save it as UTF-8.", str(path)) from error
    except OSError as error:
        raise InputError(f"This file cannot be read: {error.strerror}.", str(path)) from error


def _tables(text: str) -> list[str]:
    """What stands before the first table, then each table with the remarks right above it."""
    parts: list[list[str]] = [[]]
    above: list[str] = []
    for line in text.splitlines(keepends=True):
        if line.lstrip().startswith("#"):
            above.append(line)
            continue
        if _TABLE.match(line):
            if len(parts) == 1:
                parts[0] += above
                above = []
            parts.append([])
        parts[-1] += [*above, line]
        above = []
    parts[-1] += above
    return ["".join(lines) for lines in parts]
