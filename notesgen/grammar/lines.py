"""The lines on which entries of a TOML file stand, which the reader of TOML does not keep."""

from __future__ import annotations

import re

_STEP = re.compile(r"(\w+)(?:\[(\d+)\])?")


def line_at(source: str, place: str) -> int:
    """The line (1-based) of a place such as "$.idiom[1].example[0].heard", or of the entry that holds it."""
    lines = source.split("\n")
    at = -1  # before the first line: the whole file
    for name, number in _STEP.findall(place):
        found = _header(lines, at, name, int(number)) if number else _field(lines, at, name)
        at = at if found is None else found
    return max(at, 0) + 1


def _header(lines: list[str], after: int, name: str, number: int) -> int | None:
    """Where the entry of that name and number (from 0) after a line opens: [[idiom]], [[idiom.not]]."""
    opens = re.compile(rf"\s*\[\[(?:\w+\.)?{name}\]\]")
    found = [at for at in range(after + 1, len(lines)) if opens.match(lines[at])]
    return found[number] if number < len(found) else None


def _field(lines: list[str], after: int, name: str) -> int | None:
    """Where the field of the entry that opens above is set."""
    for at in range(after + 1, len(lines)):
        if lines[at].lstrip().startswith("[["):
            return None
        if re.match(rf'\s*"?{name}"?\s*=', lines[at]):
            return at
    return None
