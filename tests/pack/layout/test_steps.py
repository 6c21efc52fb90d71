"""Passages in plain words."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import Event, Facts, Lesson, Repeat, Source
from notesgen.pack.layout.sheet import lay_out
from notesgen.pack.layout.steps import steps
from tests.pack.layout.test_staff import STANDARD, event


def told(*events: Event, repeats: tuple[Repeat, ...] = ()) -> list[str]:
    facts = Facts("A lesson", "guitar", STANDARD)
    sheet = lay_out(Lesson(source=Source("a.vtt"), facts=facts, events=events, repeats=repeats))
    return [step.words for step in steps(sheet.passages[0], sheet, STANDARD)]


@pytest.mark.parametrize(
    ("words", "events"),
    [
        ("G string: 5, hammer-on to 7", [event(1, (3, 5)), event(2, (3, 7), how="hammer-on")]),
        ("G string: 8, slide down to 3", [event(1, (3, 8)), event(2, (3, 3), how="slide")]),
        ("G string: slide to 3", [event(1, (3, 3), how="slide")]),
        (
            "G string: bend 7 up a whole step, release the bend to 7",
            [event(1, (3, 7), how="bend", bend=2.0), event(2, (3, 7), how="release")],
        ),
        (
            "G string: bend 8 up a quarter tone (vibrato)",
            [event(1, (3, 8), how="bend", bend=0.5, marks=("vibrato",))],
        ),
        ("G string: bend 8 (how far was not said)", [event(1, (3, 8), how="bend")]),
        ("G string: bend 8 up a half step before striking it", [event(1, (3, 8), how="pre-bend", bend=1.0)]),
        ("G string: trill between 7 and 9", [event(1, (3, 7), how="trill", to=9)]),
        (
            "G string: tap 12, pull-off to the open string",
            [event(1, (3, 12), how="tap"), event(2, (3, 0), how="pull-off")],
        ),
        ("G string: harmonic over 12, a dead note", [event(1, (3, 12), how="harmonic"), event(2, (3, "x"))]),
        ("Low E string: open three times, 3", [*(event(n, (6, 0)) for n in range(3)), event(9, (6, 3))]),
        ("Together: 5 on the B string; 7 on the G string", [event(1, (3, 7), (2, 5))]),
        ("Together: 5 on the B string and G string", [event(1, (3, 5), (2, 5))]),
    ],
)
def test_words(words: str, events: list[Event]) -> None:
    assert told(*events) == [words]


def test_a_new_string_begins_a_step_and_a_repeat_tells_its_steps() -> None:
    events = (event(1, (6, 3)), event(2, (6, 5)), event(3, (5, 5)), event(4, (5, 7)))
    assert told(*events, repeats=(Repeat("e2", "e3", 4),)) == [
        "Low E string: 3",
        "Low E string: 5",
        "A string: 5. Steps 2 to 3 are played four times",
        "A string: 7",
    ]
    assert told(*events[:2], repeats=(Repeat("e1", "e2", 2),)) == ["Low E string: 3, 5. Play this step twice"]
