"""The page's script, put together from its parts for a page that stands alone."""

from __future__ import annotations

from importlib.resources import files

ENGINE = ("schedule.js", "pluck.js", "engine.js")
"""What makes the sound. What stands later uses what stands before."""
PARTS = (*ENGINE, "player.js")


def player_script() -> str:
    """The JavaScript of the player, to be put between <script> and </script> as it is.

    Lines that are only comment are left out: a page is carried to phones.
    """
    lines = (line for part in PARTS for line in _part(part).splitlines())
    code = "\n".join(line for line in lines if line.strip() and not line.lstrip().startswith("//"))
    return f'(() => {{\n"use strict";\n{code}\n}})();\n'


def engine_module() -> str:
    """What makes the sound, alone, as a module that exports `Playing`."""
    return "\n".join([*map(_part, ENGINE), "export { Playing };\n"])


def _part(name: str) -> str:
    return files("notesgen.pack.layout.page").joinpath(name).read_text(encoding="utf-8")
