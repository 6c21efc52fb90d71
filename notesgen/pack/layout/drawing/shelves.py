"""The rows above the strings: each sign on the lowest one that has room for it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from xml.etree import ElementTree as ET

from msgspec import Struct

GAP = 3.0  # points between two signs on one row


class Sign(Struct, frozen=True):
    """Something to put above the strings from `left` to `right`; `draw` makes it, given the height on which
    it stands. It takes so many `rows`; one that is `rooted` grows out of the strings and cannot move up."""

    left: float
    right: float
    draw: Callable[[float], list[ET.Element]]
    event: str = ""
    rows: int = 1
    rooted: bool = False


class Shelved(Struct, frozen=True):
    """A sign and its row, 0 being the one next to the strings."""

    sign: Sign
    row: int


def shelved(signs: Iterable[Sign]) -> list[Shelved]:
    """Rows for all signs; the first ones come to lie lowest, rooted ones before all others."""
    rows: list[list[Sign]] = []
    placed: list[Shelved] = []
    for sign in sorted(signs, key=lambda sign: not sign.rooted):
        row = 0 if sign.rooted else _lowest(sign, rows)
        rows.extend([] for _ in range(row + sign.rows - len(rows)))
        for taken in rows[row : row + sign.rows]:
            taken.append(sign)
        placed.append(Shelved(sign, row))
    return placed


def height(placed: Iterable[Shelved]) -> int:
    """How many rows are in use."""
    return max((shelf.row + shelf.sign.rows for shelf in placed), default=0)


def _lowest(sign: Sign, rows: list[list[Sign]]) -> int:
    free = (
        row
        for row in range(len(rows))
        if all(_apart(sign, other) for taken in rows[row : row + sign.rows] for other in taken)
    )
    return next(free, len(rows))


def _apart(sign: Sign, other: Sign) -> bool:
    return sign.right + GAP <= other.left or other.right + GAP <= sign.left
