"""`decisions.toml` written: more in it, less, or another order, every table that stays as it was typed.

The file is cut into its tables as text: reading it into a document and writing that out takes longer than a
reader waits for.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from notesgen.decisions.locked import locked
from notesgen.decisions.model import Decision
from notesgen.decisions.store import HEADER, Entry, parse, same_matter, written
from notesgen.errors import InputError
from notesgen.lesson.files import write_whole

_TABLE = re.compile(r"[ \t]*\[\[[ \t]*decision[ \t]*\]\]")

APART = "Each decision must stand under a line [[decision]], and no text may hold such a line."


def add(path: Path, entries: Iterable[Entry]) -> None:
    """Writes the entries behind those of the file, where the last word stands. Raises InputError."""

    def with_all(held: tuple[Decision, ...]) -> list[Entry]:
        kept = list(map(Entry, held))
        for entry in entries:
            kept = behind(kept, entry)
        return kept

    rewrite(path, with_all)


def remove(path: Path, decisions: Sequence[Decision]) -> None:
    """Takes decisions out of the file, with their comments; those that are not in it are passed over."""
    rewrite(path, lambda held: [Entry(old) for old in held if old not in decisions])


def behind(held: Iterable[Entry], entry: Entry) -> list[Entry]:
    """The entry behind all others; what decided the same before is out."""
    return [*(old for old in held if not same_matter(old.decision, entry.decision)), entry]


def rewrite(path: Path, change: Callable[[tuple[Decision, ...]], Sequence[Entry]]) -> tuple[Decision, ...]:
    """Writes what `change` makes of the decisions that stand there, in its order, and returns them.

    It waits for other writers, and reads what they wrote. The file is written whole, and only when it can be
    read again, then takes the old one's name. Raises InputError.
    """
    with locked(path):
        text = _text(path)
        held = parse(text.encode(), str(path))
        head, *tables = _tables(text)
        if len(tables) != len(held):
            raise InputError(APART, str(path))
        typed = dict(zip(held, tables, strict=True))
        wanted = change(held)
        parts = [typed.get(entry.decision) or written(entry) for entry in wanted]
        data = (_ended(head) + "\n".join(part.strip("\n") + "\n" for part in parts)).encode()
        parse(data, str(path))
        write_whole(path, data)
    return tuple(entry.decision for entry in wanted)


def _ended(text: str) -> str:
    return text if text.endswith("\n") or not text else f"{text}\n"


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
