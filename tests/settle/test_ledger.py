"""The ledger: each number that was said, once, in order, with one role."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notesgen.rehearsal.run import hear

DIGITS = ["7", "9", "10", "5", "3", "12", "4", "810", "2.5", "5000"]
SPELLED = ["seven", "nine", "ten", "five", "three", "twelve", "four", "sevens", "third"]
TALK = """
on the G string , then and . so hammer pull off to slide bend it a half step release no sorry same
times both low B E D strings fret with your finger again don't play that was in minor bpm years
"""


def talks(numbers: list[str]) -> st.SearchStrategy[list[str]]:
    return st.lists(
        st.one_of(st.sampled_from(numbers), st.sampled_from(TALK.split())), min_size=1, max_size=25
    )


def texts(words: list[str]) -> tuple[list[str], list[str]]:
    """Numbers said, and numbers in the ledger, punctuation aside."""
    rooms = hear(" ".join(words).replace(" ,", ",").replace(" .", ".") or "no")
    return (
        [word for word in words if word in (*DIGITS, *SPELLED)],
        [number.text.rstrip(".,") for number in rooms.lesson.numbers],
    )


@settings(deadline=None)
@given(talks(DIGITS))
def test_every_digit_is_accounted_for(words: list[str]) -> None:
    said, entered = texts(["so", *words])
    assert entered == said


@settings(deadline=None)
@given(talks(SPELLED))
def test_every_number_word_is_accounted_for(words: list[str]) -> None:
    said, entered = texts(["so", *words])
    assert entered == said


@settings(deadline=None)
@given(talks(["7", "9", "810", "nine", "sevens", "third", "seventh"]))
def test_digits_and_words_stand_in_the_order_said(words: list[str]) -> None:
    numbers = hear(" ".join(["so", *words])).lesson.numbers
    assert [one.start for one in numbers] == sorted({one.start for one in numbers})


@settings(deadline=None)
@given(talks(DIGITS))
def test_entries_have_one_role_each_and_point_at_events_that_exist(words: list[str]) -> None:
    lesson = hear(" ".join(["so", *words])).lesson
    events = {event.id for event in lesson.events}
    assert [number.start for number in lesson.numbers] == sorted(number.start for number in lesson.numbers)
    for number in lesson.numbers:
        assert number.role
        assert number.event is None or number.event in events
        assert number.text.rstrip(".,") == str(number.value)


ROLES = [
    ("7 on the G", ["fret"]),
    ("hammer on from 5 to 7 on the G", ["fret", "fret"]),
    ("fret 7 on the 3rd string", ["fret", "string"]),
    ("7 on the G 3 times", ["fret", "count"]),
    ("7 on the G with the 3rd finger", ["fret", "finger"]),
    ("Take it at 92 beats per minute", ["tempo"]),
    ("Capo 2", ["capo"]),
    ("I've had it for 12 years", ["duration"]),
    ("Don't play the 9", ["not played"]),
    ("5, 7 on the D. 8 on the G. So that was 5, 7, 8.", ["fret"] * 3 + ["recap"] * 3),
    ("so 7000 something", ["not understood"]),
    ("8, no, 10 on the B", ["withdrawn", "fret"]),
    ("string 9, fret 7", ["string", "fret"]),
    ("2.5 on the G", ["not understood"]),
    ("7" * 5000 + " on the G", []),
]


@pytest.mark.parametrize(("text", "roles"), ROLES)
def test_role(text: str, roles: list[str]) -> None:
    assert sorted(number.role for number in hear(text).lesson.numbers) == sorted(roles)


EVENTS = [
    ("8, 6 on the G", ["8 e1", "6 e2"]),
    ("810 on the G", ["810 e1"]),
    ("sevens on the D", ["7 e1"]),
    ("nine on the G and then 7", ["9 e1", "7 e2"]),
    ("10, 1 on the G", ["10 e1", "1 e2"]),
    ("hammer on from 5 to 7 on the G", ["5 e1", "7 e2"]),
    ("8, no, 10 on the B", ["8 None", "10 e1"]),
]


@pytest.mark.parametrize(("text", "entries"), EVENTS)
def test_a_fret_points_at_the_note_that_it_gave(text: str, entries: list[str]) -> None:
    assert [f"{one.value} {one.event}" for one in hear(text).lesson.numbers] == entries


def test_a_box_read_out_is_no_music() -> None:
    lesson = hear(
        "Low E string, 5, 8. A string, 5, 7. D string, 5, 7. G string, 5, 7. B string, 5, 8. High E, 5, 8."
    ).lesson
    assert lesson.events == ()
    assert {number.role for number in lesson.numbers} == {"scale box"}
    (box,) = lesson.facts.positions
    assert box.frets["6"] == (5, 8) and len(box.frets) == 6
