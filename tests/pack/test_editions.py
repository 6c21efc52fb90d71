"""What a student reads: the lesson, and nothing that only its teacher has to know."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from hypothesis import given
from msgspec.structs import replace

from notesgen.lesson.model import Lesson
from notesgen.pack import markdown, tab
from notesgen.pack.layout.footnotes import UNSETTLED
from notesgen.pack.layout.practice import practice
from notesgen.pack.layout.style import Style
from tests.pack.lessons import lessons
from tests.pack.rich import FLAGS, LESSON, SETTLED

STUDENT = Style(edition="student")
TEXTS = pytest.mark.parametrize("render", [tab.render, markdown.render])
Render = Callable[[Lesson, Style], str]


@given(lessons())
def test_no_question_has_a_number_or_a_word(lesson: Lesson) -> None:
    for render in (tab.render, markdown.render):
        text = render(lesson, STUDENT)
        assert not re.search(r"\[\d|\\\[\d", text)
        assert "Which?" not in text


@TEXTS
def test_no_flag_is_told_however_it_was_answered(render: Render) -> None:
    for lesson in (LESSON, SETTLED):
        text = " ".join(render(lesson, STUDENT).split())
        assert [flag.id for flag in FLAGS if flag.message in text] == []
        for words in ("harbour.vtt", "question", "not said)", "Choices"):
            assert words not in text.replace("how far was not said)", "")


@TEXTS
def test_a_draft_is_called_one_once(render: Render) -> None:
    assert render(LESSON, STUDENT).count(UNSETTLED) == 1
    assert "draft" not in render(SETTLED, STUDENT).lower()


@TEXTS
def test_without_notes_a_student_gets_no_advice_for_teachers(render: Render) -> None:
    text = render(replace(SETTLED, events=(), phrases=(), repeats=()), STUDENT)
    assert "What to try" not in text
    assert "notesgen" not in text


@TEXTS
@pytest.mark.parametrize("edition", ["teacher", "student"])
def test_both_hold_practice_cautions_and_rights(render: Render, edition: str) -> None:
    text = " ".join(render(SETTLED, replace(STUDENT, edition=edition)).split())
    for spot in practice(SETTLED):
        assert spot.why in text and spot.advice in text
    for words in ("Warm up", "see a doctor", "ears ring", "check that you may share it"):
        assert words in text
