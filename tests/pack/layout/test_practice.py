"""The spots that a lesson is practised by."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from msgspec.structs import replace

from notesgen.lesson.model import Event, Facts, Lesson, Phrase, Source
from notesgen.pack.layout.practice import HARD, MOST, Ladder, ladder_text, practice
from tests.pack.layout.test_staff import STANDARD, event
from tests.pack.lessons import lessons
from tests.pack.rich import LESSON


def lesson(*phrases: list[Event]) -> Lesson:
    events = tuple(event for phrase in phrases for event in phrase)
    return Lesson(
        source=Source("a.vtt"),
        facts=Facts("A lesson", "guitar", STANDARD),
        phrases=tuple(
            Phrase(f"p{n}", "", 0.0, 9.0, tuple(event.id for event in phrase))
            for n, phrase in enumerate(phrases, start=1)
        ),
        events=events,
    )


def leap(number: int, fret: int) -> list[Event]:
    """A shift from fret 1 with two easy notes on either side."""
    frets = (1, 1, 1, fret, fret, fret)
    return [event(number + n, (3, place)) for n, place in enumerate(frets)]


@given(lessons())
def test_spots_are_a_handful_apart_and_inside_their_phrase(lesson: Lesson) -> None:
    spots = practice(lesson)
    assert len(spots) <= MOST
    ids = list(lesson.phrases[0].events)
    loops = sorted((ids.index(spot.first), ids.index(spot.last)) for spot in spots)
    assert all(first <= last for first, last in loops)
    assert all(before[1] < after[0] for before, after in pairwise(loops))
    assert [spot.difficulty for spot in spots] == sorted((s.difficulty for s in spots), reverse=True)
    assert all(spot.difficulty >= HARD and spot.why.endswith(".") for spot in spots)


def test_a_loop_takes_in_a_note_on_either_side() -> None:
    (spot,) = practice(lesson(leap(1, 9)))
    assert (spot.phrase, spot.first, spot.last) == ("p1", "e2", "e5")
    assert spot.why == "The hand moves up from fret 1 to fret 9."


def test_the_hardest_comes_first_and_starts_slowest() -> None:
    spots = practice(lesson(leap(1, 9), leap(11, 20), [event(20, (3, 7), how="bend", bend=7.0)]))
    assert [spot.phrase for spot in spots] == ["p3", "p2", "p1"]
    starts = [spot.ladder.start for spot in spots]
    assert starts == sorted(starts) and starts[0] < starts[-1]


def test_the_same_notes_taught_twice_are_one_spot() -> None:
    assert [spot.phrase for spot in practice(lesson(leap(1, 9), leap(11, 9)))] == ["p1"]


def test_an_easy_lesson_has_no_spots() -> None:
    assert practice(lesson([event(1, (3, 5)), event(2, (3, 7))])) == ()


def test_events_that_no_phrase_holds_are_looked_at_too() -> None:
    loose = replace(lesson(leap(1, 9)), phrases=())
    assert [spot.phrase for spot in practice(loose)] == [""]


def test_the_rich_lesson_is_told_as_a_teacher_would() -> None:
    assert [spot.why for spot in practice(LESSON)] == [
        "The 10 is bent up a whole step before it is struck. The 12 is bent up a whole step."
        " The 12 is bent up a step and a half.",
        "Four notes follow from one stroke on the A string. The hand moves up from fret 5 to fret 10."
        " The slide takes the hand down from fret 12 to fret 7.",
        "The hand moves up from fret 5 to fret 10.",
    ]


@pytest.mark.parametrize(
    ("ladder", "tempo", "text"),
    [
        (Ladder(70, 10, 100), None, "70, 80, 90, 100 %"),
        (Ladder(60, 15, 100), 120.0, "60, 75, 90, 100 % (72, 90, 108, 120 beats a minute)"),
    ],
)
def test_ladders_in_words(ladder: Ladder, tempo: float | None, text: str) -> None:
    assert ladder_text(ladder, tempo) == text
