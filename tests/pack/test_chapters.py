"""Chapters, read back by an independent WebVTT reader (webvtt-py) and by the eye of whoever pastes them."""

from __future__ import annotations

import html
import re
from itertools import pairwise

import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from notesgen.lesson.model import Lesson, Phrase
from notesgen.pack import chapter_list, chapters
from notesgen.pack.layout.chapters import chapters as made
from tests.pack.rich import LESSON

SECONDS = st.integers(0, 20_000_000).map(lambda milliseconds: milliseconds / 1000)
EVENTS = st.just(("e1",) * 5)
PHRASES = st.lists(st.builds(Phrase, st.just("p"), st.text(), SECONDS, SECONDS, EVENTS), max_size=6)


def with_phrases(*phrases: Phrase, duration: float = 421.0) -> Lesson:
    return replace(LESSON, phrases=phrases, events=(), source=replace(LESSON.source, duration=duration))


def read_back(lesson: Lesson) -> list[tuple[float, float, str]]:
    """(start, end, title) as webvtt-py reads them; it leaves entities as they are."""
    found = webvtt.from_string(chapters.render(lesson), strict=True)
    return [(seconds(cue.start), seconds(cue.end), html.unescape(cue.raw_text)) for cue in found]


def seconds(time: str) -> float:
    """ "01:02:03.500" as a number; the reader's own numbers are whole seconds."""
    hours, minutes, rest = time.split(":")
    return round(3600 * int(hours) + 60 * int(minutes) + float(rest), 3)


def test_the_list_begins_at_zero() -> None:
    assert chapter_list.render(LESSON) == (
        "0:00 Intro\n0:58 Phrase one: up the A string\n1:19 1. Bends #all kinds\n1:39 Riff\n"
    )


def test_past_the_hour() -> None:
    lesson = with_phrases(Phrase("p1", "Solo", 3725.4, 3800.0, ()), duration=4000.0)
    assert chapter_list.render(lesson) == "0:00 Intro\n1:02:05 Solo\n"
    assert "01:02:05.000 --> 01:06:40.000\nSolo" in chapters.render(lesson)


def test_a_lesson_without_phrases_is_one_chapter() -> None:
    assert chapter_list.render(with_phrases()) == "0:00 The lesson\n"


def test_a_phrase_at_the_start_needs_no_opening() -> None:
    lesson = with_phrases(Phrase("p1", "Solo", 0.4, 9.0, ()), Phrase("p2", "Ending", 9.0, 12.0, ()))
    assert chapter_list.render(lesson) == "0:00 Solo\n0:09 Ending\n"


def test_a_bit_in_passing_has_no_chapter() -> None:
    passing = Phrase("p1", "Phrase 1", 8.0, 8.5, ("e1",))
    lesson = with_phrases(passing, Phrase("p2", "Solo", 60.0, 70.0, ("e2",)))
    assert chapter_list.render(lesson) == "0:00 Intro\n1:00 Solo\n"


@pytest.mark.parametrize("title", ["A --> b", "<v Ann>Hello</v>", "Q&A &amp; more", "NOTE one", "00:01.000"])
def test_any_title_comes_through(title: str) -> None:
    lesson = with_phrases(Phrase("p1", title, 5.0, 9.0, ()))
    assert [text for _, _, text in read_back(lesson)] == ["Intro", title]


@given(PHRASES, SECONDS)
def test_chapters_run_on_from_start_to_end(phrases: list[Phrase], duration: float) -> None:
    lesson = with_phrases(*phrases, duration=duration)
    told = made(lesson)
    assert told[0].start == 0
    assert told[-1].end >= duration
    assert all(before.end == after.start for before, after in pairwise(told))
    assert all(chapter.end - chapter.start >= 1 for chapter in told)
    assert read_back(lesson) == [(c.start, c.end, c.title.replace("\0", "\ufffd")) for c in told]


@given(PHRASES)
def test_each_line_of_the_list_is_a_time_and_a_title(phrases: list[Phrase]) -> None:
    lines = chapter_list.render(with_phrases(*phrases)).splitlines()
    assert lines[0].startswith("0:00 ")
    assert all(re.fullmatch(r"(\d+:[0-5]\d|\d+):[0-5]\d \S.*", line) for line in lines)
