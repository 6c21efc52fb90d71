"""Numbers that are more likely only spoken of: left out of the draft, with a query that puts them in."""

from __future__ import annotations

import pytest

from notesgen.decisions.making import Maker
from notesgen.decisions.settled import checked, settled
from notesgen.lesson.model import Flag, Lesson
from notesgen.rehearsal.run import hear
from notesgen.settle.settle import Settled

BEFORE = (
    "First phrase. 5 on the D string, hammer on to 7. 5 on the G, 7, and 5 again. 8 on the B, pull off to 5."
)
AFTER = "And then 7 on the G, and 5. 7 on the D. Finish with 5 on the D."
ASIDE = "I heard that first at 9, on some tape, because my uncle had one, if I remember it right."
AS_TAUGHT = "5 7 5 7 5 8 5 7 5 7 5"


def draft() -> Settled:
    return hear(f"{BEFORE} {ASIDE} {AFTER}").drafted


def frets(lesson: Lesson) -> str:
    return " ".join(str(note.fret) for event in lesson.events for note in event.notes)


def question(lesson: Lesson) -> Flag:
    (found,) = (flag for flag in lesson.flags if "leaves it out" in flag.message)
    return found


def test_what_is_likely_talk_is_left_out() -> None:
    drafted = draft()
    assert frets(drafted.lesson) == AS_TAUGHT
    assert len(drafted.heard) == len(drafted.lesson.events) + 1
    assert [number.role for number in drafted.lesson.numbers if number.value == 9] == ["not played"]


def test_the_answer_puts_it_in_where_it_was_said() -> None:
    drafted = draft()
    lesson = checked(drafted)
    flag = question(lesson)
    assert [option.label for option in flag.options] == [
        "only spoken of, or told over",
        "played: 9 on the B string",
    ]
    assert "first at 9, on some tape" in flag.quote
    answered = settled(drafted, [Maker(lesson).answer(flag, 1)]).lesson
    assert frets(answered) == "5 7 5 7 5 8 5 9 7 5 7 5"
    taken_as_talk = settled(drafted, [Maker(lesson).answer(flag, 0)]).lesson
    assert frets(taken_as_talk) == AS_TAUGHT
    assert question(taken_as_talk).decided == flag.options[0].label


def test_it_stays_a_question_when_the_note_beside_it_goes() -> None:
    drafted = draft()
    lesson = checked(drafted)
    beside = question(lesson).events
    maker = Maker(lesson)
    without = settled(drafted, [maker.drop(beside)]).lesson
    assert question(without).decided is None
    both = settled(drafted, [maker.drop(beside), maker.answer(question(lesson), 1)]).lesson
    assert frets(both) == "5 7 5 7 5 8 9 7 5 7 5"


@pytest.mark.parametrize(
    "words", ["7, 5", "next is the 10", "start at fret 7", "I heard that at 9. 5 on the G"]
)
def test_nothing_is_left_out_of_a_few_words(words: str) -> None:
    drafted = hear(words).drafted
    assert len(drafted.heard) == len(drafted.lesson.events) > 0
