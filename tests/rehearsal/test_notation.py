"""Notes as examples write them: read, written back, and compared with events."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.lesson.model import Event, How, Mark, Note
from notesgen.rehearsal.notation import NotationError, Written, WrittenNote, parse, written


def event(
    *notes: Note,
    how: How = "pick",
    bend: float | None = None,
    to: int | None = None,
    marks: tuple[Mark, ...] = (),
) -> Event:
    return Event(
        id="e1", start=0.0, end=1.0, phrase="p1", notes=notes, how=how, bend=bend, to=to, marks=marks
    )


FITTING = [
    ("3/5 pick", event(Note(3, 5))),
    ("3/5", event(Note(3, 5))),
    ("?/5", event(Note(2, 5))),
    ("6/x pick", event(Note(6, "x"))),
    ("(3/7 2/8) pick", event(Note(2, 8), Note(3, 7))),
    ("(?/7 ?/8) pick", event(Note(4, 7), Note(3, 8))),
    ("3/14 bend=2", event(Note(3, 14), how="bend", bend=2.0)),
    ("3/14 bend=0.5", event(Note(3, 14), how="bend", bend=0.5)),
    ("3/14 bend", event(Note(3, 14), how="bend", bend=1.0)),
    ("2/15 release", event(Note(2, 15), how="release", bend=2.0)),
    ("2/8 pre-bend=2", event(Note(2, 8), how="pre-bend", bend=2.0)),
    ("3/3 trill to=5", event(Note(3, 3), how="trill", to=5)),
    ("1/7 pick vibrato let-ring", event(Note(1, 7), marks=("let-ring", "vibrato"))),
    ("1/7 vibrato", event(Note(1, 7), marks=("vibrato",))),
    ("(3/9:bend=2 2/7) pick", event(Note(2, 7), Note(3, 9, how="bend", bend=2.0))),
]
OTHER = [
    ("3/5 pick", event(Note(2, 5))),
    ("3/5 pick", event(Note(3, 7))),
    ("3/5 pick", event(Note(3, 5), how="hammer-on")),
    ("3/5 pick", event(Note(3, 5), marks=("vibrato",))),
    ("3/5 pick", event(Note(3, 5), Note(2, 5))),
    ("3/5 bend=2", event(Note(3, 5), how="bend", bend=1.0)),
    ("3/3 trill to=5", event(Note(3, 3), how="trill", to=6)),
    ("(3/9:bend=2 2/7)", event(Note(3, 9), Note(2, 7))),
    ("6/0", event(Note(6, "x"))),
]


@pytest.mark.parametrize(("text", "played"), FITTING, ids=[text for text, _ in FITTING])
def test_what_fits(text: str, played: Event) -> None:
    assert parse(text).fits(played)


@pytest.mark.parametrize(("text", "played"), OTHER)
def test_what_does_not_fit(text: str, played: Event) -> None:
    assert not parse(text).fits(played)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "7",
        "7 on the G",
        "G/7",
        "3/5 yodel",
        "3/5 pick loud",
        "()",
        "(3/5",
        "3/5 bend=much",
        "3/-1",
        "3/5:up",
    ],
)
def test_what_cannot_be_read(text: str) -> None:
    with pytest.raises(NotationError):
        parse(text)


def test_only_an_unsaid_string_asks() -> None:
    assert parse("?/5").asks
    assert parse("(3/5 ?/6)").asks
    assert not parse("3/5").asks


NOTES = st.builds(
    WrittenNote,
    st.one_of(st.none(), st.integers(1, 7)),
    st.one_of(st.just("x"), st.integers(0, 24).map(str)),
)
STROKES = st.builds(
    Written,
    st.lists(NOTES, min_size=1, max_size=6).map(tuple),
    st.sampled_from(get_args(How)),
    st.one_of(st.none(), st.sampled_from([0.5, 1.0, 2.0])),
    st.one_of(st.none(), st.integers(0, 24)),
    st.lists(st.sampled_from(get_args(Mark)), unique=True).map(tuple),
)


@given(STROKES)
def test_what_is_written_is_read_back(stroke: Written) -> None:
    assert parse(str(stroke)) == stroke


@given(st.lists(st.builds(Note, st.integers(1, 6), st.integers(0, 24)), min_size=1, max_size=6))
def test_an_event_fits_what_is_written_of_it(notes: list[Note]) -> None:
    played = event(*notes)
    assert written(played).fits(played)
