"""Plain transcripts with times. Common practice, no source: no standard exists."""

from __future__ import annotations

import pytest

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript


def read(body: str) -> Transcript:
    return read_captions(body.encode(), "lesson.txt")


FORMS = [
    "[0:10] open D\n[1:02:03] and A",
    "0:10 open D\n1:02:03 and A",
    "(0:10) open D\n(1:02:03) and A",
    "[00:10] open D\n[01:02:03] and A",
    "- [0:10] open D\n- [1:02:03] and A",
    "* 0:10 - open D\n* 1:02:03 - and A",
    "**[0:10]** open D\n**[1:02:03]** and A",
    "[0:10]: open D\n[1:02:03]: and A",
    "0:10\nopen D\n1:02:03\nand A",
    "# The lesson\n\n[0:10] open\nD\n\n## Second part\n\n[1:02:03] and A",
    "### 0:10\nopen D\n### 1:02:03 The second part\nand A",
    "[00:10.000 --> 00:12.000] open D\n[01:02:03.000 --> 01:02:05.000] and A",
]


@pytest.mark.parametrize("body", FORMS)
def test_forms_of_a_time(body: str) -> None:
    transcript = read(body)
    assert transcript.format == "text"
    assert [(cue.start, cue.text) for cue in transcript.cues] == [(10.0, "open D"), (3723.0, "and A")]
    assert [word.text for word in transcript.words] == ["open", "D", "and", "A"]
    assert transcript.warnings == ()


def test_a_caption_lasts_to_the_next_and_the_last_as_its_words_take() -> None:
    transcript = read("[0:10] open D\n[0:30] one two three four five six seven eight nine")
    assert [(cue.start, cue.end) for cue in transcript.cues] == [(10.0, 30.0), (30.0, 33.333)]
    assert transcript.duration == 33.333


def test_words_are_spoken_at_a_natural_pace_and_the_rest_is_a_gap() -> None:
    transcript = read("[0:10] open D\n[0:30] next")
    assert [(word.start, word.end) for word in transcript.words[:2]] == [(10.0, 10.529), (10.529, 10.741)]
    assert [(gap.start, gap.end) for gap in transcript.gaps] == [(0.0, 10.0), (10.741, 30.0)]


def test_words_are_spoken_faster_where_they_must_fit() -> None:
    transcript = read("[0:10] one two three four five six seven eight\n[0:11] next")
    assert transcript.words[7].end == 11.0


def test_a_bare_time_among_bracketed_ones_is_talk() -> None:
    transcript = read("[0:10] it's\n4:30 in the morning\n[0:20] next")
    assert transcript.cues[0].text == "it's 4:30 in the morning"


def test_lines_with_the_same_time_are_one_caption() -> None:
    assert [cue.text for cue in read("[0:10] open\n[0:10] D\n[0:20] A").cues] == ["open D", "A"]


def test_a_time_that_goes_back_is_named() -> None:
    transcript = read("[0:10] open\n[0:05] D\n[0:20] A")
    assert [cue.text for cue in transcript.cues] == ["open D", "A"]
    assert transcript.warnings == (
        "lesson.txt:2: The time 0:05 is before 0:10; its words were joined to those before.",
    )


def test_words_before_the_first_time_are_named() -> None:
    transcript = read("My lesson\n[0:10] open")
    assert transcript.warnings == ("lesson.txt:1: This line was left out: it has no time before it.",)


@pytest.mark.parametrize(
    "body",
    ["[0:10] [Music]\n[0:20] open", "[0:05] and\n[0:10] (plays)\n[0:20] open", "0:10 ♪ la ♪\n0:20 open"],
)
def test_a_label_fills_its_time(body: str) -> None:
    transcript = read(body)
    assert transcript.gaps[-1].end == 20.0
    assert transcript.gaps[-1].label in ("Music", "plays")
    assert transcript.words[-1].text == "open"


def test_a_label_in_the_middle_takes_the_time_that_the_words_leave() -> None:
    transcript = read("[0:10] listen now [plays] that was it\n[0:20] next")
    assert [(gap.start, gap.end, gap.label) for gap in transcript.gaps[1:]] == [(10.886, 19.034, "plays")]
