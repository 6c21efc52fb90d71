"""SubRip, read tolerantly. Common practice, no source: no standard exists."""

from __future__ import annotations

import pytest

from notesgen.captions.read import read_captions

FIRST = "00:00:01,000 --> 00:00:02,000\n"
SECOND = "00:00:03,000 --> 00:00:04,000\n"

CASES = [
    ("well formed", f"1\n{FIRST}open\n\n2\n{SECOND}D\n", "open D"),
    ("leading blank lines", f"\n\n1\n{FIRST}open\n", "open"),
    ("no numbers", f"{FIRST}open\n\n{SECOND}D\n", "open D"),
    ("dots", "1\n00:00:01.000 --> 00:00:02.000\nopen\n", "open"),
    ("no blank line between", f"1\n{FIRST}a\n2\n{SECOND}b\n", "a b"),
    ("a fret on its own line", f"{FIRST}fret\n7\n\n{SECOND}b\n", "fret 7 b"),
    ("a fret as the last word", f"1\n{FIRST}12", "12"),
    ("a blank line inside", f"1\n{FIRST}open\n\nD\n\n2\n{SECOND}A\n", "open D A"),
    ("tags", f"1\n{FIRST}{{\\an8}}<font color='red'><i>open</i></font> D\n", "open D"),
    ("no text", f"1\n{FIRST}\n2\n{SECOND}b\n", "b"),
    ("place behind the time", "1\n00:00:01,000 --> 00:00:02,000 X1:10 Y1:20\nopen\n", "open"),
]


@pytest.mark.parametrize(("body", "expected"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_words(body: str, expected: str) -> None:
    transcript = read_captions(body.encode(), "lesson.srt")
    assert transcript.format == "srt"
    assert " ".join(word.text for word in transcript.words) == expected
    assert transcript.warnings == ()


def test_short_fractions_are_tenths() -> None:
    transcript = read_captions(b"1\n0:00:01,5 --> 0:00:02,25\nopen\n", "lesson.srt")
    assert (transcript.cues[0].start, transcript.cues[0].end) == (1.5, 2.25)


def test_a_bad_time_is_named() -> None:
    body = b"1\n00:00:01,000 --> 00:00:02,000\na\n\n2\n00:00:xx,000 --> 00:00:04,000\nlost\n"
    transcript = read_captions(body, "lesson.srt")
    assert [word.text for word in transcript.words] == ["a"]
    assert transcript.warnings[0].startswith("lesson.srt:6: This caption was left out")


@pytest.mark.parametrize("arrow", ["->", "=>", "–>", "→", "--->"])
def test_another_arrow_is_read_and_told(arrow: str) -> None:
    one = f"1\n00:00:01,000 {arrow} 00:00:03,000\na\n\n"
    transcript = read_captions(one.encode(), "lesson.srt")
    assert transcript.format == "srt"
    assert [(word.text, word.start) for word in transcript.words] == [("a", 1.0)]
    assert transcript.warnings == (
        f'lesson.srt:2: "00:00:01,000 {arrow} 00:00:03,000" is a caption time with "{arrow}" for "-->"; '
        "it was read as one.",
    )


def test_other_arrows_are_told_once() -> None:
    body = b"1\n00:00:01,000 -> 00:00:03,000\na\n\n2\n00:00:04,000 -> 00:00:05,000\nb\n"
    transcript = read_captions(body, "lesson.srt")
    assert [word.text for word in transcript.words] == ["a", "b"]
    assert len(transcript.warnings) == 1
    assert "it and 1 more were read as one." in transcript.warnings[0]


def test_warnings_stand_in_the_order_of_the_lines() -> None:
    body = (
        b"1\n00:00:05,000 --> 00:00:04,000\na\n\n2\n00:00:xx,000 --> 00:00:04,000\nlost\n\n"
        b"3\n00:00:01,000 -> 00:00:02,000\nb\n"
    )
    warnings = read_captions(body, "lesson.srt").warnings
    lines = [int(warning.split(":")[1]) for warning in warnings]
    assert lines == sorted(lines)
    assert set(lines) == {2, 6, 10}


def test_lines_of_the_text() -> None:
    body = b"\n1\n00:00:01,000 --> 00:00:02,000\na\n\n2\n00:00:03,000 --> 00:00:04,000\nb\n"
    assert [cue.line for cue in read_captions(body, "lesson.srt").cues] == [4, 8]
