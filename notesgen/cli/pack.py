"""`notesgen pack`: the files of a lesson made again from its `lesson.json`."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from notesgen.cli import options
from notesgen.errors import InputError
from notesgen.packing import STUDENT

if TYPE_CHECKING:
    from notesgen.cli.summary import Line
    from notesgen.lesson.model import Lesson
    from notesgen.pack.layout.style import Edition

QUERIES_OPEN = 1


def _edition(typed: str) -> Edition:
    if typed == "teacher":
        return "teacher"
    if typed == "student":
        return "student"
    raise InputError(f'--edition: give teacher or student, not "{typed}".')


def pack(
    lesson: Annotated[
        str, typer.Argument(metavar="LESSON", help="A lesson.json, or the folder of a pack that holds one.")
    ],
    only: options.Only = None,
    edition: Annotated[
        str,
        typer.Option(
            metavar="teacher|student",
            help="The teacher's edition shows what is open, the student's does not.",
        ),
    ] = "teacher",
    force: Annotated[
        bool,
        typer.Option("--force", help='Make the student\'s edition while queries are open, as a "draft".'),
    ] = False,
    out: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="The folder for the files; the lesson's own, or student in it."),
    ] = None,
    width: options.Width = 80,
) -> None:
    """Make a pack again from its lesson.json, or one for students.

    Ends with 1 when the student's edition is refused, as queries stand open.
    """
    from notesgen.cli.lesson_file import find_captions, lesson_path, standing_lesson
    from notesgen.cli.screen import show
    from notesgen.pack.layout.style import Style, is_unsettled
    from notesgen.pack.outputs import chosen
    from notesgen.packing import write_files

    wanted, kind = chosen(only), _edition(edition)
    path = lesson_path(lesson)
    found = standing_lesson(path)
    if kind == STUDENT and is_unsettled(found) and not force:
        show(_refusal(found), errors=True)
        raise typer.Exit(QUERIES_OPEN)
    folder = out or (path.parent / STUDENT if kind == STUDENT else path.parent)
    written = write_files(found, folder, Style(width, kind, find_captions(found, path)), wanted)
    made = sorted(file.name for file in written)
    missing = sorted({output.file for output in wanted} - set(made)) if only else []
    show((f"notesgen: {_unmade(name, found)}" for name in missing), errors=True)
    show([f"Written to {folder}: {', '.join(made)}."] if made else ["Nothing was written."])


def _refusal(lesson: Lesson) -> Iterator[Line]:
    """The open queries under the numbers that they have in the teacher's edition, and the way out."""
    from notesgen.cli.screen import counted, wrapped
    from notesgen.pack.layout.clock import clock
    from notesgen.pack.layout.sheet import lay_out

    questions = lay_out(lesson).all_questions
    for question in questions:
        flag, mark = question.flag, f"[{question.number}] {clock(question.flag.start)} "
        yield from wrapped(flag.message, 0, hang=len(mark), label=mark)
    yield ""
    opens = f"{counted(len(questions), 'query', 'queries')} {'is' if len(questions) == 1 else 'are'} open"
    yield from wrapped(
        f"notesgen: {opens}, so no student's edition was made. Answer them with notesgen answer, "
        'or give --force for one that says "draft" on every page.'
    )


def _unmade(file: str, lesson: Lesson) -> str:
    return (
        f"{file} was not made: there is nothing for it in this lesson, or it needs {lesson.source.captions}, "
        "which does not lie beside it."
    )
