"""Titles of phrases: the teacher's words where they make a title, else mended."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.lesson.model import Facts, Lesson, Phrase, Source
from notesgen.pack.layout.titles import titles

NOTES = ("e1", "e2", "e3", "e4")


def lesson(*said: str, events: tuple[str, ...] = NOTES) -> Lesson:
    phrases = tuple(Phrase(f"p{n}", title, 10.0 * n, 10.0 * n + 5, events) for n, title in enumerate(said, 1))
    return Lesson(source=Source("a.vtt", duration=99.0), facts=Facts("A", "guitar", ("E4",)), phrases=phrases)


@pytest.mark.parametrize(
    ("said", "told"),
    [
        (["First phrase", "Last phrase"], ["First phrase", "Last phrase"]),
        (["Well, the second part", "Third part"], ["Second part", "Third part"]),
        (["Part one", "Part number two", "Three this is the"], ["Part one", "Part two", "Part three"]),
        (["Lick one", "Four, this is where", "Five five's the"], ["Lick one", "Lick four", "Lick five"]),
        (["First lick", "Second lick", "Lick 3"], ["First lick", "Second lick", "Third lick"]),
        (["Lick one", "Phrase 2", "Lick three"], ["Lick one", "Lick two", "Lick three"]),
        (["Lick one", "Phrase 2", "Lick two"], ["Lick one", "Phrase 2", "Lick two"]),
        (["First phrase", "Phrase 2", "Second phrase"], ["First phrase", "Passage 2", "Second phrase"]),
        (["Number one", "Last one number two"], ["Phrase one", "Phrase two"]),
        (["Bit's", "Last bit's"], ["Phrase 1", "Last bit"]),
        (["Bridge", "Bridge", "Solo"], ["Bridge", "Bridge (2)", "Solo"]),
        (["", "Riff"], ["Phrase 1", "Riff"]),
        (["Phrase one: up the A string"], ["Phrase one: up the A string"]),
        (["So the climb\nto the top"], ["Climb to the top"]),
    ],
)
def test_titles(said: list[str], told: list[str]) -> None:
    assert titles(lesson(*said)) == tuple(told)


def test_a_bit_in_passing_is_not_counted_in() -> None:
    assert titles(lesson("Phrase 1", "Part two", events=("e1",))) == ("Phrase 1", "Part two")


def test_a_whole_sentence_is_cut_at_a_word() -> None:
    (title,) = titles(lesson("Climbing " + "very " * 20 + "high"))
    assert len(title) <= 60
    assert title.endswith("very…")


@given(st.lists(st.text(max_size=30) | st.sampled_from(["Part one", "Bit", "the last one"]), max_size=6))
def test_no_title_is_empty_and_each_is_one_line(said: list[str]) -> None:
    told = titles(lesson(*said))
    assert len(told) == len(said)
    assert all(title.strip() and len(title.splitlines()) == 1 for title in told)
