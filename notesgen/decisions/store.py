"""`decisions.toml`: read into decisions, and a decision as a table of it."""

from __future__ import annotations

import errno
import re
import textwrap
import tomllib
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from typing import Any

import msgspec
from msgspec import Struct

from notesgen.decisions.model import Added, Decision
from notesgen.decisions.notation import parse_notes
from notesgen.errors import InputError
from notesgen.lesson.problem import explain

FILE = "decisions.toml"
TABLE = "decision"
COMMENT = 100  # characters a line
HEADER = """\
# What you decided about this lesson. notesgen reads this file with every draft and never throws it away.
# You may edit it: change `notes` to another string/fret, or take out a whole [[decision]].

"""


class Entry(Struct, frozen=True):
    """A decision, and the words that stand above it for whoever reads the file."""

    decision: Decision
    comment: str = ""


def read_decisions(path: Path) -> tuple[Decision, ...]:
    """All decisions of the file, in order; none where there is no such file, nor can be.

    Raises InputError, with file and line, when it cannot be read.
    """
    try:
        return parse(path.read_bytes(), str(path))
    except (FileNotFoundError, NotADirectoryError, ValueError):
        return ()
    except OSError as error:
        if error.errno == errno.ENAMETOOLONG:
            return ()
        raise InputError(f"This file cannot be read: {error.strerror}.", str(path)) from error


@lru_cache(maxsize=8)
def parse(data: bytes, source: str) -> tuple[Decision, ...]:
    """The decisions of a file's content. Raises InputError, which names `source` and the line."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError("This is not UTF-8 text; save it as UTF-8.", source, line) from error
    try:
        loaded = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _bad_toml(str(error), text, source) from error
    tables = loaded.pop(TABLE, [])
    if loaded or not isinstance(tables, list):
        name = next(iter(loaded), TABLE)
        raise InputError(
            f'"{name}" is not known here; each decision is a [[{TABLE}]].', source, _line(text, name)
        )
    return tuple(_decision(table, n, text, source) for n, table in enumerate(tables))


def same_matter(old: Decision, new: Decision) -> bool:
    """Whether both answer the same question, or set the same of the same notes by hand."""
    return _matter(old) == _matter(new)


def _matter(decision: Decision) -> tuple[object, ...]:
    where = tuple((t.at, t.words, t.nth, t.added) for t in decision.targets)
    if decision.asked:
        return decision.asked, decision.at, decision.words, where
    edits = tuple(
        name
        for target in decision.targets
        for name in ("notes", "how", "bend", "to", "marks", "drop", "times", "before", "after")
        if getattr(target, name) not in (None, False, ())
    )
    phrase = (decision.rename is not None, decision.split, decision.join, decision.recap)
    return where, edits, phrase


def _decision(table: Any, place: int, text: str, source: str) -> Decision:
    try:
        decision = msgspec.convert(table, Decision)
    except msgspec.ValidationError as error:
        line = _field_line(str(error), text, _nth_table(text, place))
        raise InputError(explain(str(error)), source, line) from error
    for target in decision.targets:
        added: tuple[Added, ...] = target.before + target.after
        for notes in (target.was, target.notes, *(one.notes for one in added)):
            if notes is not None and parse_notes(notes) is None:
                told = f'"{notes}" names no notes; write string/fret, such as "2/8".'
                raise InputError(told, source, _line(text, f'"{notes}"', _nth_table(text, place)))
    return decision


def _bad_toml(message: str, text: str, source: str) -> InputError:
    what, _, place = message.partition(" (at ")
    found = re.match(r"line (\d+)", place)
    line = int(found[1]) if found else text.count("\n") + 1
    return InputError(f"This is not TOML: {what[:1].lower()}{what[1:]}.", source, line)


def _nth_table(text: str, place: int) -> int:
    """The line on which the table stands, from 1; 1 where it cannot be told."""
    heads = [
        n for n, line in enumerate(text.splitlines(), start=1) if re.match(rf"\s*\[\[\s*{TABLE}\s*\]\]", line)
    ]
    return heads[place] if place < len(heads) else 1


def _field_line(message: str, text: str, start: int) -> int:
    """The line of the field that an error names; that of the table where it names none."""
    named = re.findall(r"`([a-z]+)`|\.([a-z]+)", message)
    fields = [first or second for first, second in named if (first or second) not in ("int", "str", "array")]
    return next((line for name in fields if (line := _line(text, name, start, default=0))), start)


def _line(text: str, needle: str, start: int = 1, default: int | None = None) -> int:
    """The first line from `start` on that holds the text, up to the next table."""
    for number, line in enumerate(text.splitlines()[start - 1 :], start=start):
        if needle in line:
            return number
        if number > start and line.strip().startswith("[["):
            break
    return start if default is None else default


def written(entry: Entry) -> str:
    """The decision as it stands in the file."""
    import tomlkit

    tables = tomlkit.aot()
    tables.append(_table(entry))
    document = tomlkit.document()
    document.append(TABLE, tables)
    return tomlkit.dumps(document)


def _table(entry: Entry) -> Any:
    """The decision as a TOML table: fields in the model's order, a target a line."""
    import tomlkit

    table = tomlkit.table()
    if entry.comment:
        for line in textwrap.wrap(entry.comment, COMMENT):
            table.add(tomlkit.comment(line))
    for name, value in msgspec.to_builtins(entry.decision).items():
        table.add(name, _targets(value) if name == "targets" else value)
    return table


def _targets(targets: Sequence[dict[str, Any]]) -> Any:
    import tomlkit

    array = tomlkit.array().multiline(True)
    for target in targets:
        array.append(_inline(target))
    return array


def _inline(value: Any) -> Any:
    """Tables inside a line, as tables of one line."""
    import tomlkit

    if isinstance(value, dict):
        table = tomlkit.inline_table()
        for name, inner in value.items():
            table.append(name, _inline(inner))
        return table
    return [_inline(each) for each in value] if isinstance(value, list | tuple) else value
