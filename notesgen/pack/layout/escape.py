"""Text that Markdown and HTML leave as it is."""

from __future__ import annotations

import re

ENTITIES = {"&": "&amp;", "<": "&lt;", ">": "&gt;"}


def escape(text: str) -> str:
    """Text on one line that Markdown and HTML leave as it is."""
    flat = " ".join(text.split())
    marked = re.sub(r"[\\`*_\[\]#|~]", r"\\\g<0>", flat)
    return re.sub("[&<>]", lambda found: ENTITIES[found[0]], marked)
