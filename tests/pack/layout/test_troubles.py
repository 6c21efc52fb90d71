"""What is hard for the hands, case by case."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import Event, Facts, Note
from notesgen.pack.layout.troubles import troubles
from tests.pack.layout.test_staff import STANDARD, event

FACTS = Facts("A lesson", "guitar", STANDARD)


def told(*events: Event) -> list[str]:
    return [trouble.why for trouble in troubles(events, FACTS)]


@pytest.mark.parametrize(
    ("why", "events"),
    [
        ([], [event(1, (3, 5)), event(2, (3, 7)), event(3, (2, 8))]),
        (["The hand moves up from fret 5 to fret 12."], [event(1, (3, 5)), event(2, (3, 12))]),
        (
            ["The hand moves down from fret 12 to fret 5."],
            [event(1, (3, 12)), event(2, (3, 0)), event(3, (3, 5))],
        ),
        (
            ["The slide takes the hand up from fret 3 to fret 10."],
            [event(1, (3, 3)), event(2, (3, 10), how="slide")],
        ),
        ([], [event(1, (3, 5)), event(2, (3, 17), how="tap")]),
        (["The fingers stretch from fret 5 to fret 9."], [event(1, (3, 5), (2, 9))]),
        (
            ["The fingers stretch from fret 5 to fret 9."],
            [event(1, (3, 5)), event(2, (3, 9), how="hammer-on")],
        ),
        ([], [event(1, (3, 0)), event(2, (3, 9), how="hammer-on")]),
        (
            ["Three notes follow from one stroke on the G string."],
            [
                event(1, (3, 5)),
                event(2, (3, 7), how="hammer-on"),
                event(3, (3, 5), how="pull-off"),
                event(4, (3, 7), how="hammer-on"),
            ],
        ),
        (
            ["The 7 is bent up a whole step."],
            [event(1, (3, 7), how="bend", bend=2.0), event(2, (3, 7), how="release")],
        ),
        (["The 7 is bent up a half step before it is struck."], [event(1, (3, 7), how="pre-bend", bend=1.0)]),
        (["The x is bent."], [event(1, (3, "x"), how="bend")]),
        (["The picking hand jumps over a string."], [event(1, (3, 5)), event(2, (1, 5))]),
        (
            ["The picking hand jumps over two strings, twice running."],
            [event(1, (5, 5)), event(2, (2, 5)), event(3, (5, 5))],
        ),
        (["The same stroke comes six times in a row."], [event(n, (3, 5)) for n in range(6)]),
        ([], [event(n, (3, 5)) for n in range(5)]),
    ],
)
def test_each_trouble_in_words(why: list[str], events: list[Event]) -> None:
    assert told(*events) == why


def weight(*events: Event, capo: int = 0) -> float:
    return sum(trouble.weight for trouble in troubles(events, Facts("", "guitar", STANDARD, capo)))


def test_the_same_stretch_is_harder_nearer_the_nut() -> None:
    low, high = event(1, (3, 2), (2, 6)), event(1, (3, 9), (2, 13))
    assert weight(low) > weight(high)
    assert weight(low, capo=7) == pytest.approx(weight(high))


def test_a_stretch_is_as_wide_as_the_neck_has_it() -> None:
    """The twelfth fret halves the string (common practice, no source): 324 of 648 mm from the nut, and the
    twenty-fourth halves what is left."""
    assert weight(event(1, (3, 12), (2, 24))) == pytest.approx(1.62)


def test_what_is_harder_weighs_more() -> None:
    assert weight(event(1, (3, 3)), event(2, (3, 9))) < weight(event(1, (3, 3)), event(2, (3, 10)))
    assert weight(event(1, (3, 3)), event(2, (3, 9), how="slide")) < weight(
        event(1, (3, 3)), event(2, (3, 9))
    )
    assert weight(event(1, (3, 7), how="bend", bend=1.0)) < weight(event(1, (3, 7), how="bend", bend=3.0))
    unison = Event("e1", 1.0, 2.0, "", (Note(2, 10), Note(3, 12, how="bend", bend=2.0)))
    assert weight(event(1, (3, 12), how="bend", bend=2.0)) < weight(unison)
