"""Lessons for hypothesis that a guitar could play: each note of an event on a string of its own."""

from __future__ import annotations

from typing import get_args

from hypothesis import strategies as st
from msgspec.structs import replace

from notesgen.lesson.model import Event, Facts, Flag, Fret, How, Lesson, Mark, Note, Phrase, Repeat, Source

STANDARD = ("E4", "B3", "G3", "D3", "A2", "E2")
HOWS = st.sampled_from(get_args(How))
FRETS: st.SearchStrategy[Fret] = st.integers(0, 24) | st.just("x")
BENDS = st.none() | st.sampled_from((0.5, 1.0, 1.5, 2.0, 3.0))
TARGETS = st.none() | st.integers(0, 24)

NOTES = st.lists(
    st.builds(Note, st.integers(1, 6), FRETS, how=st.none() | HOWS, bend=BENDS, to=TARGETS),
    min_size=1,
    max_size=4,
    unique_by=lambda note: note.string,
).map(tuple)
EVENTS = st.lists(
    st.builds(
        Event,
        st.just(""),
        st.just(1.0),
        st.just(2.0),
        st.just("p1"),
        NOTES,
        how=HOWS,
        bend=BENDS,
        to=TARGETS,
        marks=st.lists(st.sampled_from(get_args(Mark)), unique=True, max_size=3).map(tuple),
    ),
    max_size=24,
)


@st.composite
def lessons(draw: st.DrawFn) -> Lesson:
    """One phrase of up to 24 events, some of them asked about, with up to two repeats."""
    events = tuple(replace(event, id=f"e{n}") for n, event in enumerate(draw(EVENTS)))
    ids = [event.id for event in events]
    some = st.lists(st.sampled_from(ids), max_size=4).map(tuple) if ids else st.just(())
    flags = draw(st.lists(some, max_size=3))
    places = draw(st.lists(st.tuples(st.sampled_from(ids), st.sampled_from(ids)), max_size=2)) if ids else []
    return Lesson(
        source=Source("a.vtt"),
        facts=Facts("A lesson", "guitar", STANDARD),
        phrases=(Phrase("p1", "One", 0.0, 9.0, tuple(ids)),),
        repeats=tuple(Repeat(first, last, 2) for first, last in places),
        events=events,
        flags=tuple(
            Flag(f"f{n}", "fret-unsure", "query", 1.0, 2.0, asked, "", "Which?")
            for n, asked in enumerate(flags)
        ),
    )
