"""`notesgen demo`: a lesson of our own invention, drafted."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from notesgen.errors import InputError

LESSON = "harbour.vtt"
TITLE = "Harbour Lights"
_PACKAGE = Path(__file__).resolve().parent.parent


def demo(
    out: Annotated[
        Path, typer.Option(metavar="DIR", help="The folder for the captions and the pack.")
    ] = Path("notesgen-demo"),
) -> None:
    """Draft an invented lesson, to see what comes out."""
    from notesgen.cli.draft import draft
    from notesgen.lesson.files import write_whole
    from notesgen.packing import make_folder

    data = demo_captions().read_bytes()
    make_folder(out)
    write_whole(out / LESSON, data)
    draft(str(out / LESSON), out=out, title=TITLE)


def demo_captions() -> Path:
    """The demo's captions: inside the installed package, or beside it in a checkout. Raises InputError."""
    for folder in (_PACKAGE / "demo", _PACKAGE.parent / "fixtures" / "demo"):
        if (folder / LESSON).is_file():
            return folder / LESSON
    raise InputError("The demo lesson is missing; install notesgen again.")
