"""Slips: which answers tell of one, and the sentences made of them."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import (
    Change,
    Event,
    Facts,
    Flag,
    FlagKind,
    Key,
    Lesson,
    Note,
    Number,
    Option,
    Source,
)
from notesgen.pack.layout.slips.find import doubtful, put_right, settled
from tests.pack.lessons import STANDARD

FACTS = Facts("A lesson", "guitar", STANDARD, key=Key("E", "minor"))


def lesson(flag: Flag, *events: Event, numbers: tuple[Number, ...] = ()) -> Lesson:
    return Lesson(source=Source("a.vtt"), facts=FACTS, events=events, flags=(flag,), numbers=numbers)


def event(string: int, fret: int, origin: str = "said") -> Event:
    return Event("e1", 252.0, 253.0, "p1", (Note(string, fret),), origin=origin)  # type: ignore[arg-type]


def asked(
    kind: FlagKind, message: str, *options: Option, decided: str | None = None, start: float = 252.0
) -> Flag:
    return Flag("f1", kind, "query", start, start + 1, ("e1",), "8 on the B", message, options, decided)


EIGHT = Number("8", 8, 252.4, "fret", "e1")
MOVED = Option("fret 10 (A)", (Change("e1", (Note(2, 10),)),))


def outside(decided: str | None) -> Flag:
    return asked("outside-key", "Fret 8 is not in the key.", Option("keep fret 8"), MOVED, decided=decided)


def test_an_answer_that_differs_from_what_was_said_is_a_slip() -> None:
    (slip,) = settled(lesson(outside("fret 10 (A)"), event(2, 10), numbers=(EIGHT,)))
    assert slip.sentence == "At 4:12 I say 8; it's 10."
    assert (slip.number, slip.fret) == (EIGHT, 10)


def test_an_answer_that_keeps_what_was_said_is_none() -> None:
    assert settled(lesson(outside("keep fret 8"), event(2, 8), numbers=(EIGHT,))) == []
    assert doubtful(lesson(outside("keep fret 8"), event(2, 8), numbers=(EIGHT,))) == []


def test_a_note_that_nobody_named_is_no_slip_of_the_tongue() -> None:
    assert settled(lesson(outside("fret 10 (A)"), event(2, 10))) == []


def test_an_open_query_may_be_one() -> None:
    (doubt,) = doubtful(lesson(outside(None), event(2, 8), numbers=(EIGHT,)))
    assert [slip.sentence for slip in doubt.slips] == ["At 4:12 I say 8; it's 10."]
    assert settled(lesson(outside(None), event(2, 8), numbers=(EIGHT,))) == []


def test_a_fret_mended_by_hand_is_a_slip() -> None:
    remark = Flag("f1", "corrected", "note", 1.0, 2.0, (), "", "You said 3 first.")
    mended = lesson(remark, event(2, 10, origin="decided"), numbers=(EIGHT,))
    assert [slip.sentence for slip in settled(mended)] == ["At 4:12 I say 8; it's 10."]
    assert put_right(mended) == [remark]


def test_a_technique_that_was_another() -> None:
    options = (
        Option("keep the hammer-on"),
        Option("a pull-off", (Change("e1", how="pull-off"),)),
        Option("a note picked anew", (Change("e1", how="pick"),)),
    )
    said = {
        answer: [
            slip.sentence
            for slip in settled(lesson(asked("wrong-way", "", *options, decided=answer), event(2, 7)))
        ]
        for answer in ("a pull-off", "a note picked anew")
    }
    assert said["a pull-off"] == ["At 4:12 I say hammer-on; it's a pull-off."]
    assert said["a note picked anew"] == ["At 4:12 I say hammer-on; it's picked."]


@pytest.mark.parametrize(
    ("decided", "told"),
    [("7, as first told", "At 10:49 I say 11; it's 7."), ("11, as retold", "At 4:12 I say 7; it's 11.")],
)
def test_of_two_tellings_the_other_one_is_the_slip(decided: str, told: str) -> None:
    flag = asked(
        "told-differently",
        "The first telling has 7 on the B string, the retelling at 10:49 has 11. The draft keeps the first.",
        Option("7, as first told"),
        Option("11, as retold", (Change("e1", (Note(2, 11),)),)),
        decided=decided,
    )
    assert [slip.sentence for slip in settled(lesson(flag, event(2, 7), numbers=(EIGHT,)))] == [told]


@pytest.mark.parametrize(
    ("decided", "told"),
    [
        ("G: 8 on the B string", "At 4:12 I say 7 on the B string; it's 8 on the B string, the G."),
        ("7 on the B string, as said", "At 4:12 I call the note G; it's F#."),
    ],
)
def test_of_a_name_and_a_place_the_other_one_is_the_slip(decided: str, told: str) -> None:
    flag = asked(
        "fret-unsure",
        "You call this note G, but 7 on the B string is another. The draft follows the name and takes 8 on "
        "the B string.",
        Option("G: 8 on the B string"),
        Option("7 on the B string, as said", (Change("e1", (Note(2, 7),)),)),
        decided=decided,
    )
    seven = Number("7", 7, 252.4, "fret", "e1")
    assert [slip.sentence for slip in settled(lesson(flag, event(2, 8), numbers=(seven,)))] == [told]


def test_what_the_words_leave_open_is_no_slip() -> None:
    flag = asked("string-unsaid", "", Option("on the B string"), Option("on the G string"))
    assert doubtful(lesson(flag, event(2, 8), numbers=(EIGHT,))) == []
