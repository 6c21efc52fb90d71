"""Decisions that a maker refuses, and answers given anew."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from notesgen.decisions.making import Maker
from notesgen.decisions.settled import settled
from notesgen.errors import InputError
from notesgen.lesson.model import Flag, Lesson, Note
from tests.decisions.packs import base, drafted

MAKER = Maker(base("harbour"))
STRING = "f2"  # on e12, e13 and e14; its last option takes them out
WAY = "f4"  # on e19: keep the hammer-on, a pull-off, a hammer-on to another fret


def flag(lesson: Lesson, name: str) -> Flag:
    return next(flag for flag in lesson.flags if flag.id == name)


@pytest.mark.parametrize("notes", [(Note(2, -1),), (Note(2, 5), Note(2, 7)), (Note(2, 5, "bend", 1e-7),)])
def test_notes_without_a_short_form_are_refused(notes: tuple[Note, ...]) -> None:
    event = replace(base("harbour").events[0], notes=notes)
    with pytest.raises(InputError, match="cannot be written"):
        MAKER.edit(event, "odd")


@pytest.mark.parametrize("option", [0, 1])
def test_a_question_whose_notes_are_all_out_is_not_answered(option: int) -> None:
    out = [MAKER.drop([name]) for name in ("e12", "e13", "e14")]
    asked = flag(settled(drafted("harbour").drafted, out).lesson, STRING)
    with pytest.raises(InputError, match="not in the lesson any more"):
        MAKER.answer(asked, option)


def test_an_answer_that_took_notes_out_is_changed_to_one_that_keeps_them() -> None:
    draft = drafted("harbour").drafted
    first = MAKER.answer(flag(base("harbour"), STRING), 3)
    again = MAKER.answer(flag(settled(draft, [first]).lesson, STRING), 0)
    names = {event.id for event in settled(draft, [again]).lesson.events}
    assert [target.at for target in again.targets] == [target.at for target in first.targets]
    assert {"e12", "e13", "e14"} <= names


@pytest.mark.parametrize(("option", "how"), [(0, "hammer-on"), (1, "pull-off"), (2, "hammer-on")])
def test_an_answer_given_after_an_edit_is_the_last_word(option: int, how: str) -> None:
    draft = drafted("harbour").drafted
    event = next(event for event in base("harbour").events if event.id == "e19")
    slid = MAKER.edit(replace(event, how="slide"), "slide")
    answer = MAKER.answer(flag(settled(draft, [slid]).lesson, WAY), option)
    lesson = settled(draft, [slid, answer]).lesson
    assert next(each.how for each in lesson.events if each.id == "e19") == how
    assert flag(lesson, WAY).decided == answer.answer


def test_an_open_question_offers_no_change_to_a_note_that_is_out() -> None:
    lesson = settled(drafted("harbour").drafted, [MAKER.drop(["e12"])]).lesson
    asked = flag(lesson, STRING)
    assert asked.decided is None and len(asked.options) == 4
    assert {change.event for option in asked.options for change in option.change} == {"e13", "e14"}
