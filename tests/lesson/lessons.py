"""Lessons for hypothesis: any that the model allows, floats as `lesson.json` keeps them."""

from __future__ import annotations

from typing import TypeVar, get_args

from hypothesis import strategies as st

from notesgen.lesson.model import (
    Change,
    Event,
    EventOrigin,
    FactChange,
    FactOrigin,
    Facts,
    Flag,
    FlagKind,
    Fret,
    How,
    Key,
    Lesson,
    Level,
    Mark,
    Note,
    Number,
    Option,
    Phrase,
    Played,
    Position,
    Repeat,
    Source,
)

T = TypeVar("T")
TEXT = st.text(max_size=8)
SECONDS = st.integers(0, 10_000_000).map(lambda milliseconds: milliseconds / 1000)
SEMITONES = st.none() | st.integers(1, 16).map(lambda quarters: quarters / 4)
HOWS = st.sampled_from(get_args(How))
FRETS: st.SearchStrategy[Fret] = st.integers(0, 24) | st.just("x")
TARGETS = st.none() | st.integers(0, 24)
KEYS = st.builds(Key, TEXT, TEXT)


def several(items: st.SearchStrategy[T], max_size: int = 3) -> st.SearchStrategy[tuple[T, ...]]:
    """A short tuple of `items`."""
    return st.lists(items, max_size=max_size).map(tuple)


NOTES = st.builds(Note, st.integers(1, 6), FRETS, how=st.none() | HOWS, bend=SEMITONES, to=TARGETS)
EVENTS = st.builds(
    Event,
    TEXT,
    SECONDS,
    SECONDS,
    TEXT,
    several(NOTES),
    how=HOWS,
    bend=SEMITONES,
    to=TARGETS,
    marks=several(st.sampled_from(get_args(Mark))),
    origin=st.sampled_from(get_args(EventOrigin)),
    quote=TEXT,
    flags=several(TEXT),
    played=st.none() | st.builds(Played, SECONDS, SECONDS, st.none() | SECONDS, st.none() | SECONDS),
)
CHANGES = st.builds(
    Change, TEXT, st.none() | several(NOTES), st.none() | HOWS, SEMITONES, TARGETS, st.booleans()
)
FLAGS = st.builds(
    Flag,
    TEXT,
    st.sampled_from(get_args(FlagKind)),
    st.sampled_from(get_args(Level)),
    SECONDS,
    SECONDS,
    several(TEXT),
    TEXT,
    TEXT,
    several(st.builds(Option, TEXT, several(CHANGES))),
    st.none() | TEXT,
)
POSITIONS = st.builds(
    Position,
    TEXT,
    SECONDS,
    st.dictionaries(st.integers(1, 6).map(str), several(st.integers(0, 24)), max_size=3),
    TEXT,
)
FACTS = st.builds(
    Facts,
    TEXT,
    TEXT,
    several(TEXT),
    st.integers(0, 12),
    st.none() | KEYS,
    st.none() | SECONDS,
    several(POSITIONS),
    several(st.builds(FactChange, SECONDS, TEXT, KEYS | TEXT | several(TEXT) | SECONDS, TEXT)),
    st.dictionaries(TEXT, st.sampled_from(get_args(FactOrigin)), max_size=3),
)
LESSONS = st.builds(
    Lesson,
    source=st.builds(Source, TEXT, st.none() | TEXT, SECONDS, TEXT),
    facts=FACTS,
    phrases=several(
        st.builds(Phrase, TEXT, TEXT, SECONDS, SECONDS, several(TEXT), several(st.tuples(SECONDS, SECONDS)))
    ),
    repeats=several(st.builds(Repeat, TEXT, TEXT, st.integers(2, 9))),
    events=several(EVENTS),
    flags=several(FLAGS),
    numbers=several(st.builds(Number, TEXT, st.integers(0, 300) | SECONDS, SECONDS, TEXT, st.none() | TEXT)),
)
