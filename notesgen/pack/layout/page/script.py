"""The page's script, put together from its parts for a page that stands alone."""

from __future__ import annotations

from importlib.resources import files

PARTS = ("player.js",)
"""In the order in which they are read."""


def player_script() -> str:
    """The JavaScript of the player, to be put between <script> and </script> as it is."""
    folder = files("notesgen.pack.layout.page")
    parts = [folder.joinpath(part).read_text(encoding="utf-8").strip() for part in PARTS]
    return '(() => {\n"use strict";\n\n' + "\n\n".join(parts) + "\n})();\n"
