"""Carets stand under the doubtful words, whatever the words are."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript, Word
from notesgen.cli.excerpt import caption_line, excerpt

TALK = "[0:01] one two three four five six seven eight nine ten eleven twelve"


def transcript(text: str = TALK) -> Transcript:
    return read_captions(text.encode(), "talk.txt")


def of(words: list[Word], first: int, last: int, width: int = 76) -> list[str]:
    return excerpt(transcript(), words[first].start, words[last].end, width)


@pytest.mark.parametrize(
    ("first", "last", "lines"),
    [
        (0, 0, ["one two three four five six", "^^^"]),
        (6, 6, ["two three four five six seven eight nine ten eleven twelve", " " * 24 + "^^^^^"]),
        (10, 11, ["six seven eight nine ten eleven twelve", "                         ^^^^^^^^^^^^^"]),
    ],
)
def test_the_words_around_are_shown(first: int, last: int, lines: list[str]) -> None:
    assert of(list(transcript().words), first, last) == lines


def test_a_long_doubt_runs_over_several_lines_and_is_cut_short() -> None:
    shown = of(list(transcript().words), 0, 11, width=12)
    assert shown[:2] == ["one two", "^^^^^^^"]
    assert shown[-1] == "..."


def test_a_silence_shows_nothing() -> None:
    assert excerpt(transcript(), 500.0, 501.0, 76) == []


def test_wide_letters_take_two_columns() -> None:
    talk = transcript("[0:01] 五 on the G")
    assert excerpt(talk, talk.words[0].start, talk.words[0].end, 76)[1] == "^^"


def test_the_line_of_the_caption() -> None:
    assert caption_line(transcript("[0:01] a\n[0:09] b"), 9.0) == 2
    assert caption_line(transcript(), 0.5) is None


@given(st.integers(0, 11), st.integers(0, 11), st.integers(12, 90))
def test_no_line_is_longer_than_the_width(first: int, last: int, width: int) -> None:
    first, last = sorted((first, last))
    shown = of(list(transcript().words), first, last, width)
    assert all(len(line) <= width for line in shown)
    assert any("^" in line for line in shown)
