"""The rules are those of W3C WebVTT (Candidate Recommendation, 4 April 2019); the cases are our own."""

from __future__ import annotations

import pytest

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript
from notesgen.errors import InputError


def read(body: str, header: str = "WEBVTT") -> Transcript:
    return read_captions(f"{header}\n\n{body}".encode(), "lesson.vtt")


def said(transcript: Transcript) -> str:
    return " ".join(word.text for word in transcript.words)


# section of the specification, what it says, the cues, the words that must come out
RULES = [
    ("4.1", "hours may be left out", "01:02.500 --> 01:04.000\nopen D", "open D"),
    ("4.1", "more than two digits of hours", "100:00:01.000 --> 100:00:02.000\nopen D", "open D"),
    ("4.1", "an identifier is not text", "7\n00:01.000 --> 00:02.000\nopen D", "open D"),
    ("4.1", "text of several lines", "00:01.000 --> 00:02.000\nopen\nD", "open D"),
    ("4.1", "a NOTE is a comment", "NOTE 5 and 7\nare frets\n\n00:01.000 --> 00:02.000\nopen", "open"),
    ("4.1", "a STYLE block is no text", "STYLE\n::cue { }\n\n00:01.000 --> 00:02.000\nopen", "open"),
    ("4.3", "a REGION block is no text", "REGION\nid:a lines:3\n\n00:01.000 --> 00:02.000\nopen", "open"),
    ("4.4", "settings follow the times", "00:01.000 --> 00:02.000 align:start line:0\nopen", "open"),
    ("4.2.2", "class spans", "00:01.000 --> 00:02.000\n<c.loud.red>bend</c> it", "bend it"),
    ("4.2.2", "italics, bold, underline", "00:01.000 --> 00:02.000\n<i>a</i> <b>b</b> <u>c</u>", "a b c"),
    ("4.2.2", "voice spans", "00:01.000 --> 00:02.000\n<v The Teacher>fifth fret</v>", "fifth fret"),
    ("4.2.2", "language spans", "00:01.000 --> 00:02.000\n<lang it>piano</lang>", "piano"),
    ("6.4", "character references", "00:01.000 --> 00:02.000\nB &amp; E&nbsp;&lt;3&gt; &#66;", "B & E <3> B"),
    (
        "6.1",
        "a time line ends the cue before",
        "00:01.000 --> 00:02.000\na\n00:02.000 --> 00:03.000\nb",
        "a b",
    ),
    ("6.1", "the last line needs no line end", "00:01.000 --> 00:02.000\nlast", "last"),
    ("6.1", "spaces round the arrow are optional", "00:01.000-->00:02.000\nopen", "open"),
    ("6.1", "a cue without text is allowed", "00:01.000 --> 00:02.000\n\n00:03.000 --> 00:04.000\nb", "b"),
]


@pytest.mark.parametrize(("section", "rule", "body", "expected"), RULES, ids=[rule[1] for rule in RULES])
def test_rule_of_the_specification(section: str, rule: str, body: str, expected: str) -> None:
    transcript = read(body)
    assert said(transcript) == expected, (section, rule)
    assert transcript.format == "webvtt"
    assert transcript.warnings == ()


@pytest.mark.parametrize("header", ["WEBVTT", "WEBVTT - lesson", "WEBVTT\tlesson", "WEBVTT\nKind: captions"])
def test_header_line_of_section_4_1(header: str) -> None:
    assert said(read("00:01.000 --> 00:02.000\nopen", header)) == "open"


def test_header_must_stand_alone_section_4_1() -> None:
    with pytest.raises(InputError):
        read_captions(b"WEBVTTX\n\n", "lesson.vtt")


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_of_section_4_1(end: str) -> None:
    body = end.join(["WEBVTT", "", "00:01.000 --> 00:02.000", "open", "D", ""])
    transcript = read_captions(body.encode(), "lesson.vtt")
    assert said(transcript) == "open D"
    assert transcript.cues[0].line == 4


def test_inline_times_section_4_2_2() -> None:
    transcript = read(
        "00:10.000 --> 00:13.000\nso<00:10.500><c> it's the</c><00:11.250><c> fifth</c> <00:11.750>fret,"
    )
    assert [(word.text, word.start, word.exact) for word in transcript.words] == [
        ("so", 10.0, True),
        ("it's", 10.5, True),
        ("the", 10.917, False),
        ("fifth", 11.25, True),
        ("fret,", 11.75, True),
    ]
    assert transcript.words[-1].end == 13.0


def test_inline_times_are_held_inside_the_cue_section_4_2_2() -> None:
    transcript = read("00:10.000 --> 00:12.000\na <00:09.000>b <00:11.000>c <00:10.500>d <00:30.000>e")
    assert [word.start for word in transcript.words] == [10.0, 10.0, 11.0, 11.0, 12.0]


def test_unclosed_angle_bracket_is_text() -> None:
    """A departure from section 6.4, which drops the rest of the cue: no number may vanish."""
    assert said(read("00:01.000 --> 00:02.000\nif 5 < 7 it rises")) == "if 5 < 7 it rises"


def test_language_of_the_header() -> None:
    assert read("00:01.000 --> 00:02.000\nciao", "WEBVTT\nKind: captions\nLanguage: it").language == "it"
    assert read("00:01.000 --> 00:02.000\nLanguage: it").language == "en"


DROPPED = [
    ("minutes of 60", "00:60:00.000 --> 00:61:00.000"),
    ("seconds of 60", "00:60.000 --> 00:61.000"),
    ("no minutes", "1.000 --> 2.000"),
    ("four digits of thousandths", "00:01.0000 --> 00:02.0000"),
    ("no end", "00:01.000 -->"),
    ("letters", "soon --> later"),
]


@pytest.mark.parametrize("timing", [case[1] for case in DROPPED], ids=[case[0] for case in DROPPED])
def test_dropped_cues_are_named(timing: str) -> None:
    transcript = read(f"00:01.000 --> 00:02.000\nopen\n\n{timing}\nlost\n\n00:05.000 --> 00:06.000\nD\n")
    assert said(transcript) == "open D"
    assert len(transcript.warnings) == 1
    assert transcript.warnings[0].startswith("lesson.vtt:6: This caption was left out")


def test_comma_in_a_time_is_put_right() -> None:
    assert said(read("00:01,000 --> 00:02,000 position:10%,line-left\nopen")) == "open"


def test_each_cue_knows_its_line() -> None:
    body = "NOTE x\n\n1\n00:01.000 --> 00:02.000\nsame\n\n00:02.000 --> 00:03.000\nother\nsame\n"
    assert [cue.line for cue in read(body).cues] == [7, 10]


def test_cues_out_of_order_are_sorted_with_a_warning() -> None:
    transcript = read("00:05.000 --> 00:06.000\nb\n\n00:01.000 --> 00:02.000\na\n")
    assert said(transcript) == "a b"
    assert "lesson.vtt:6: This caption begins before the one above it" in transcript.warnings[0]


def test_end_before_start_is_estimated_with_a_warning() -> None:
    transcript = read("00:05.000 --> 00:04.000\none two\n\n00:09.000 --> 00:10.000\nb\n")
    assert transcript.cues[0].end == pytest.approx(5.741)
    assert "ends before it begins" in transcript.warnings[0]
