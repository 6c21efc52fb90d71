"""captions.vtt, read back by an independent WebVTT reader (webvtt-py)."""

from __future__ import annotations

import html

import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript
from notesgen.lesson.model import Event, Facts, Flag, Lesson, Note, Number, Source
from notesgen.pack.captions import render
from notesgen.pack.layout.style import Style
from notesgen.pipeline import draft
from tests.pack import demo
from tests.pack.lessons import STANDARD
from tests.pack.rich import LESSON

BARE = Lesson(source=Source("a.vtt"), facts=Facts("A", "guitar", STANDARD))


def captions(*texts: str) -> Transcript:
    """Each text for two seconds."""
    cues = (f"00:{2 * n:02d}.000 --> 00:{2 * n + 2:02d}.000\n{text}" for n, text in enumerate(texts))
    return read_captions("\n\n".join(["WEBVTT", *cues]).encode(), "a.vtt")


def shown(lesson: Lesson, transcript: Transcript) -> list[str]:
    return [text for _, _, text in read_back(lesson, transcript)]


def read_back(lesson: Lesson, transcript: Transcript) -> list[tuple[str, str, str]]:
    """(start, end, text) as webvtt-py reads them; it leaves entities as they are."""
    told = render(lesson, Style(transcript=transcript))
    assert told is not None
    found = webvtt.from_string(told, strict=True)
    return [(cue.start, cue.end, html.unescape(cue.raw_text)) for cue in found]


def test_without_captions_there_are_none() -> None:
    assert render(LESSON) is None


def test_captions_without_slips_stay_as_they_are() -> None:
    source = webvtt.from_string((demo.demo_captions()).read_text(encoding="utf-8"))
    theirs = [(cue.start, cue.end, cue.text) for cue in source]
    assert read_back(replace(demo.lesson(), flags=()), demo.transcript()) == theirs


def test_a_misheard_word_is_the_one_that_was_meant() -> None:
    talk = captions(
        "Standard tuning. On the B string, 5 and ate. Hammer on to 10.", "Then 8 on the gee string."
    )
    assert shown(draft(talk), talk) == [
        "Standard tuning. On the B string, 5 and 8. Hammer on to 10.",
        "Then 8 on the G string.",
    ]


def test_a_misheard_number_is_written_as_the_others_are() -> None:
    talk = captions("Standard tuning. On the B string five and ate. Then hammer on from seven to nine.")
    assert "five and eight." in shown(draft(talk), talk)[0]


def test_a_word_that_stands_twice_is_left_alone() -> None:
    told = 'The captions say "be" for "B"; the draft read it so.'
    flag = Flag("f1", "misheard", "note", 0.0, 2.0, (), "", told)
    assert shown(replace(BARE, flags=(flag,)), captions("it may be on the be string")) == [
        "it may be on the be string"
    ]


@pytest.mark.parametrize(
    ("said", "text", "shows"),
    [
        ("Then 8, on the B.", "8", "Then 10, on the B."),
        ("Then 8, on the B.", "8,", "Then 10, on the B."),
        ("Eight on the B.", "Eight", "Ten on the B."),
        ("the eighth fret", "eighth", "the tenth fret"),
        ("the 8th fret", "8th", "the 10th fret"),
    ],
)
def test_a_settled_slip_is_put_right_in_the_form_that_was_said(said: str, text: str, shows: str) -> None:
    talk = captions(said)
    at = next(word.start for word in talk.words if word.text.strip(".,") == text.strip(".,"))
    event = Event("e1", at, at + 1, "p1", (Note(2, 10),), origin="decided")
    lesson = replace(BARE, events=(event,), numbers=(Number(text, 8, at, "fret", "e1"),))
    assert shown(lesson, talk) == [shows]


def test_what_the_talk_itself_put_right_stays_as_it_was_said() -> None:
    talk = captions("Standard tuning. On the B string 8, no, 10.")
    assert shown(draft(talk), talk) == ["Standard tuning. On the B string 8, no, 10."]


def test_roll_up_repeats_are_taken_out() -> None:
    rolled = captions(
        "five on the", "five on the\nB string and", "B string and\nthen seven", "then seven\nagain"
    )
    assert shown(BARE, rolled) == ["five on the", "B string and", "then seven", "again"]


@given(st.lists(st.text(st.characters(codec="utf-8"), min_size=1, max_size=30), min_size=1, max_size=4))
def test_hostile_text_cannot_break_the_file(texts: list[str]) -> None:
    given_texts = ["safe", *(text.replace("\n", " ").replace("\r", " ") for text in texts)]
    talk = captions(*(html.escape(text, quote=False) for text in given_texts))
    assert shown(BARE, talk) == [cue.text for cue in talk.cues if cue.text]


@pytest.mark.parametrize("text", ["a --&gt; b", "&lt;v Ann&gt; hello", "Q&amp;A", "NOTE this", "WEBVTT"])
def test_arrows_tags_and_ampersands_come_through(text: str) -> None:
    assert shown(BARE, captions(text, "and on")) == [html.unescape(text), "and on"]
