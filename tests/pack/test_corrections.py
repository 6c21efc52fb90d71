"""corrections.md, read back by an independent CommonMark reader (markdown-it-py)."""

from __future__ import annotations

from hypothesis import given
from markdown_it import MarkdownIt
from msgspec.structs import replace

from notesgen.lesson.model import Lesson
from notesgen.pack.corrections import render
from notesgen.pack.layout.footnotes import UNSETTLED
from notesgen.pack.layout.style import Style
from tests.pack import demo
from tests.pack.lessons import lessons
from tests.pack.rich import LESSON

STUDENT = Style(edition="student")


def answered(lesson: Lesson, choice: int) -> Lesson:
    """All queries that have so many choices answered with that one."""
    flags = (
        replace(flag, decided=flag.options[choice].label) if len(flag.options) > choice else flag
        for flag in lesson.flags
    )
    return replace(lesson, flags=tuple(flags))


def headings(text: str | None) -> list[str]:
    tokens = MarkdownIt("commonmark").parse(text or "")
    return [tokens[i + 1].content for i, token in enumerate(tokens) if token.type == "heading_open"]


def test_the_teacher_sees_what_to_check_and_what_was_put_right() -> None:
    told = render(demo.lesson())
    assert headings(told)[1:] == ["To paste under the recording", "To check", "Put right in the talk"]
    assert told is not None and "At 1:47 I say hammer-on; it's a pull-off." in told


def test_the_student_sees_settled_slips_only() -> None:
    assert UNSETTLED in render(demo.lesson(), STUDENT)
    told = render(answered(demo.lesson(), 1), STUDENT)
    assert headings(told)[1:] == ["To paste under the recording"]
    assert told is not None and told.endswith("```text\nAt 1:47 I say hammer-on; it's a pull-off.\n```\n")


def test_a_lesson_without_slips_says_so() -> None:
    assert render(replace(LESSON, flags=())) == (
        "# Corrections to Lamp-lit harbour: every sign in \\*one\\* lesson &lt;in D&gt;\n\n"
        "## To paste under the recording\n\nThere is nothing to put right.\n"
    )


@given(lessons())
def test_any_lesson_has_its_page(lesson: Lesson) -> None:
    assert render(lesson) == render(lesson)
    assert headings(render(lesson))[0] == "Corrections to A lesson"
