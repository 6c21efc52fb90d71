"""Time lines whose arrow is another than "-->", a slip of hands and of word processors."""

from __future__ import annotations

import re

from notesgen.captions.caption import Warned
from notesgen.captions.clock import TIME

_SLIP = re.compile(
    rf"(?P<start>\s*{TIME}\s*)(?P<arrow>->|=>|--->|[–—]>|→)(?P<end>\s*{TIME}(?:\s+\w+:\S+)*\s*)", re.ASCII
)


def mended(text: str) -> tuple[str, tuple[Warned, ...]]:
    """The text with "-->" in such lines, and one warning, on the first of them."""
    lines = text.split("\n")
    found = [(number, slip) for number, line in enumerate(lines) if (slip := _SLIP.fullmatch(line))]
    if not found:
        return text, ()
    for number, slip in found:
        lines[number] = f"{slip['start']}-->{slip['end']}"
    number, slip = found[0]
    others = {1: "it was", 2: "it and 1 more were"}.get(len(found), f"it and {len(found) - 1} more were")
    told = f'"{slip[0].strip()}" is a caption time with "{slip["arrow"]}" for "-->"; {others} read as one.'
    return "\n".join(lines), (Warned(number + 1, told),)
