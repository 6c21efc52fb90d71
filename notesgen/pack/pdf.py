"""The lesson as a printed hand-out on A4, without a program to install beside notesgen.

The file is tagged for screen readers, as PDF/UA-1 (ISO 14289-1) has it.
"""

from __future__ import annotations

from importlib.resources import files
from typing import Any

import msgspec

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.handout.contents import contents
from notesgen.pack.layout.style import PLAIN, Style

MISSING = "could not be displayed with font"  # in the words of typst 0.15
FILE = "notes.pdf"
NO_CLOCK = 0  # the time that stands in the file, so that the same lesson gives the same bytes


def render(lesson: Lesson, style: Style = PLAIN) -> bytes:
    """The hand-out. The lesson goes in as data that the template reads, so none of it can act as markup.

    A character that the faces inside typst lack, as in a title in Japanese, is taken from the fonts of the
    machine where one has it, and the file is not marked as PDF/UA, which allows no empty box in its place.
    """
    # Imported here, for the command line that only asks for help.
    import typst

    told = msgspec.json.encode(contents(lesson, style)).decode()
    try:
        return _set(told, ignore_system_fonts=True, pdf_standards="ua-1")
    except typst.TypstError as error:
        if MISSING not in str(error):
            raise
        return _set(told)


def _set(told: str, **options: Any) -> bytes:
    import typst

    template = files("notesgen.pack.layout.handout").joinpath("handout.typ").read_bytes()
    made: bytes = typst.compile(
        template, format="pdf", sys_inputs={"lesson": told}, timestamp=NO_CLOCK, **options
    )
    return made
