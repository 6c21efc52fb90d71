"""Passages that are written once and played several times."""

from __future__ import annotations

from msgspec import Struct


class Loop(Struct, frozen=True):
    """Steps `first` to `last` (places in the telling) are played `times` times in all.

    `open` holds the words when the number was left open ("three or four").
    """

    first: int
    last: int
    times: int
    open: str = ""


def read_count(text: str | None) -> tuple[int, str]:
    """A count as the grammar writes it: "3" gives (3, ""); "3 or 4" gives (3, "3 or 4")."""
    if not text:
        return 1, ""
    first, separator, _ = text.partition(" or ")
    number = int(float(first)) if first.replace(".", "").isdigit() else 1
    return number, text if separator else ""
