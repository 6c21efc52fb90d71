"""The page's script, put together from its parts for a page that stands alone."""

from __future__ import annotations

from importlib.resources import files

PARTS = ("schedule.js", "pluck.js", "engine.js", "player.js")
"""What stands later uses what stands before."""


def player_script() -> str:
    """The JavaScript of the player, to be put between <script> and </script> as it is.

    Lines that are only comment are left out: a page is carried to phones.
    """
    folder = files("notesgen.pack.layout.page")
    lines = (
        line for part in PARTS for line in folder.joinpath(part).read_text(encoding="utf-8").splitlines()
    )
    code = "\n".join(line for line in lines if line.strip() and not line.lstrip().startswith("//"))
    return f'(() => {{\n"use strict";\n{code}\n}})();\n'
