"""tab.txt: what any tab must hold, whatever the lesson."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.lesson.model import Event, Facts, Lesson, Note, Source
from notesgen.pack.layout.sheet import lay_out
from notesgen.pack.layout.staff import systems
from notesgen.pack.layout.style import Style
from notesgen.pack.tab import render
from tests.pack.lessons import lessons
from tests.pack.rich import LESSON

# A fret, and after it a bend or a trill with the fret or part of a step that it goes to.
FRET = re.compile(r"(\d+|x)(?:(?:pb|b|tr)(?:\d+|\([\d/]+\))?)?")


@given(lessons(), st.integers(20, 100))
def test_every_fret_stands_on_its_own_string_in_order(lesson: Lesson, width: int) -> None:
    sheet = lay_out(lesson)
    lines = [system.strings for passage in sheet.passages for system in systems(passage, sheet, width)]
    for string in range(1, 7):
        read = [fret for line in lines for fret in FRET.findall(line[string - 1])]
        played = [str(note.fret) for event in lesson.events for note in event.notes if note.string == string]
        assert read == played


@given(lessons(), st.integers(20, 100))
def test_the_strings_of_a_system_are_equally_long_and_fit(lesson: Lesson, width: int) -> None:
    sheet = lay_out(lesson)
    for passage in sheet.passages:
        for system in systems(passage, sheet, width):
            lengths = {len(line) for line in system.strings}
            assert len(lengths) == 1
            assert lengths.pop() <= width
            assert all(len(line) <= width for line in system.over)


@given(lessons())
def test_every_question_is_numbered_and_told(lesson: Lesson) -> None:
    text = render(lesson)
    for number in range(1, len(lesson.flags) + 1):
        assert f"[{number}] 0:01 (question) Which?" in text


def test_an_event_wider_than_the_line_stands_alone() -> None:
    text = render(LESSON, Style(12))
    assert "A|--5h7h8--|" in text  # a group that no line can hold is broken between its events
    assert "e|--10pb12--|" in text


def test_a_string_that_the_tuning_does_not_have_is_still_drawn() -> None:
    event = Event("e1", 1.0, 2.0, "", (Note(8, 3),))
    facts = Facts("A lesson", "guitar", ("E4", "B3", "G3", "D3", "A2", "E2"))
    lesson = Lesson(source=Source("a.vtt"), facts=facts, events=(event,))
    assert "\n8|--3--|\n" in render(lesson)


@pytest.mark.parametrize("width", [30, 44, 80, 120])
def test_words_keep_to_the_width(width: int) -> None:
    words = [line for line in render(LESSON, Style(width)).splitlines() if "|" not in line]
    assert max(map(len, words)) <= width


def test_a_lesson_without_notes_still_has_its_head() -> None:
    lesson = Lesson(source=Source("a.vtt"), facts=Facts("", "guitar", ("E4", "A3")))
    assert render(lesson) == (
        "Guitar lesson\n=============\n\nTuning: A E, low to high\nCapo:   none\n\n"
        "No note was found in what is said in a.vtt, so there is no tab. What to try:\n\n"
        "  - Are these the captions of a lesson in English that says its frets aloud?\n"
        "    What is only played, or only shown, is not in them.\n"
        "  - Where the instrument or the tuning is another than the one named here, give\n"
        '    it: --instrument bass, --tuning "drop D".\n'
        '  - To see how a sentence of the lesson is read: notesgen explain "5 on the G\n'
        '    string".\n'
    )
