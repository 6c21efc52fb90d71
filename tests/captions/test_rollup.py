"""Roll-up captions: each word once, and no genuine repetition lost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript


def time(seconds: float) -> str:
    thousandths = round(seconds * 1000)
    return f"00:{thousandths // 60000:02}:{thousandths // 1000 % 60:02}.{thousandths % 1000:03}"


def read(*cues: tuple[float, float, str]) -> Transcript:
    body = "\n\n".join(f"{time(start)} --> {time(end)}\n{text}" for start, end, text in cues)
    return read_captions(f"WEBVTT\n\n{body}\n".encode(), "lesson.vtt")


def said(transcript: Transcript) -> str:
    return " ".join(word.text for word in transcript.words)


def automatic(lines: list[list[str]]) -> list[tuple[float, float, str]]:
    """Captions as automatic captioning writes them: two rows, word times, a 10 ms repeat after each."""
    cues, above = [], " "
    for number, line in enumerate(lines):
        start, end = number * 2.0, number * 2.0 + 1.99
        step = 1.9 / len(line)
        rest = "".join(
            f"<{time(start + step * place)}><c> {word}</c>" for place, word in enumerate(line[1:], start=1)
        )
        cues.append((start, end, f"{above}\n{line[0]}{rest}"))
        above = " ".join(line)
        cues.append((end, end + 0.01, f"{above}\n "))
    return cues


def plain(lines: list[list[str]], height: int) -> list[tuple[float, float, str]]:
    """Captions of `height` rows without word times, moving up a row at a time."""
    rows = [" ".join(line) for line in lines]
    return [
        (number * 2.0, number * 2.0 + 2, "\n".join(rows[max(0, number - height + 1) : number + 1]))
        for number in range(len(rows))
    ]


LINES = st.lists(
    st.lists(st.sampled_from(["eight", "seven", "nine", "7", "so", "okay"]), min_size=1, max_size=5),
    min_size=4,
    max_size=12,
)


@given(LINES)
def test_automatic_captions_give_each_word_once(lines: list[list[str]]) -> None:
    transcript = read(*automatic(lines))
    assert said(transcript) == " ".join(word for line in lines for word in line)
    assert [word.exact for word in transcript.words] == [len(line) > 1 for line in lines for _ in line]


@given(LINES, st.sampled_from([2, 3]))
def test_plain_rollup_gives_each_word_once(lines: list[list[str]], height: int) -> None:
    distinct = [[f"{word}{number}" for word in line] for number, line in enumerate(lines)]
    assert said(read(*plain(distinct, height))) == " ".join(word for line in distinct for word in line)


@given(LINES)
def test_two_rows_keep_a_line_said_twice(lines: list[list[str]]) -> None:
    assert said(read(*plain(lines, 2))) == " ".join(word for line in lines for word in line)


@given(LINES)
def test_captions_of_one_row_are_never_shortened(lines: list[list[str]]) -> None:
    # Two seconds apart, so that a line which goes on from the one before is no growing caption.
    cues = [(number * 4.0, number * 4.0 + 2, " ".join(line)) for number, line in enumerate(lines)]
    assert said(read(*cues)) == " ".join(word for line in lines for word in line)


OTHERS = [
    (
        "10 ms repeats without word times",
        [(0, 2, "so today"), (2, 2.01, "so today"), (2.01, 4, "so today\na riff"), (4, 4.01, "a riff")],
        "so today a riff",
    ),
    (
        "a caption that grows",
        [(0, 1, "so"), (1, 2, "so today"), (2, 3, "so today a"), (3, 4, "so today a riff")],
        "so today a riff",
    ),
    (
        "the same words from the speaker, one after the other",
        [(0, 2, "eight seven nine"), (2, 4, "eight seven nine"), (4, 6, "eight seven nine")],
        "eight seven nine eight seven nine eight seven nine",
    ),
    (
        "one repeat among captions that do not roll up",
        [
            (0, 2, "now\n8 7 9"),
            (2, 4, "8 7 9\nand stop"),
            (4, 6, "shake it"),
            (6, 8, "and rest"),
            (8, 9, "ok"),
        ],
        "now 8 7 9 8 7 9 and stop shake it and rest ok",
    ),
    (
        "one row that goes on from the one before",
        [(0, 2, "eight seven nine"), (2, 4, "eight seven nine eight")],
        "eight seven nine eight seven nine eight",
    ),
    (
        "a label rolls up like talk",
        [
            (0, 2, "so"),
            (2, 2.01, "so"),
            (2.01, 9, "so\n[Music]"),
            (9, 9.01, "[Music]"),
            (9.01, 11, "[Music]\nright"),
        ],
        "so right",
    ),
]


@pytest.mark.parametrize(
    ("cues", "expected"), [case[1:] for case in OTHERS], ids=[case[0] for case in OTHERS]
)
def test_other_ways_of_repeating(cues: list[tuple[float, float, str]], expected: str) -> None:
    assert said(read(*cues)) == expected


def test_a_caption_that_only_repeats_stays_as_an_empty_cue() -> None:
    transcript = read(*automatic([["so", "today"], ["a", "riff"]]))
    assert [cue.text for cue in transcript.cues] == ["so today", "", "a riff", ""]
    assert {word.cue for word in transcript.words} == {0, 2}


def test_the_line_is_that_of_the_new_words() -> None:
    assert [cue.line for cue in read(*plain([["a"], ["b"], ["c"]], 2)).cues] == [4, 8, 12]
