"""Text for the terminal. What comes from captions is printed as it stands: no markup, no control codes."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.console import Console

COLUMNS = 80


def show(lines: Iterable[str | tuple[str, str]], errors: bool = False) -> None:
    """Prints lines, each plain or a pair (line, style). Styles show on a terminal only."""
    from rich.text import Text

    console = _console(errors)
    for line in lines:
        text, style = (line, "") if isinstance(line, str) else line
        console.print(Text(_visible(text), style), soft_wrap=True)


def wrapped(text: str, indent: int = 0, hang: int = 0, label: str = "") -> list[str]:
    """The text in lines of at most COLUMNS characters; lines after the first stand `hang` further in.

    A label stands before the first line, as wide as `hang`.
    """
    flat = " ".join(text.split())
    return textwrap.wrap(
        flat,
        COLUMNS,
        initial_indent=" " * indent + label.ljust(hang if label else 0),
        subsequent_indent=" " * (indent + hang),
        break_long_words=False,
        break_on_hyphens=False,
    ) or [""]


def counted(number: int, one: str, many: str = "") -> str:
    """ "1 query", "3 queries"."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def _console(errors: bool) -> Console:
    from rich.console import Console

    return Console(stderr=errors, markup=False, highlight=False, emoji=False)


def _visible(text: str) -> str:
    return "".join(letter if letter.isprintable() else "?" for letter in text)
