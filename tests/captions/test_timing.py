"""Times of words and the gaps between them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript


def read(*cues: tuple[str, str, str]) -> Transcript:
    body = "\n\n".join(f"{start} --> {end}\n{text}" for start, end, text in cues)
    return read_captions(f"WEBVTT\n\n{body}\n".encode(), "lesson.vtt")


def stamp(thousandths: int) -> str:
    return f"00:{thousandths // 60000:02}:{thousandths // 1000 % 60:02}.{thousandths % 1000:03}"


def gaps(transcript: Transcript) -> list[tuple[float, float, str]]:
    return [(gap.start, gap.end, gap.label) for gap in transcript.gaps]


def test_words_share_a_cue_by_their_length() -> None:
    transcript = read(("00:00.000", "00:01.200", "a fifth fret"))
    assert [(word.text, word.start, word.end) for word in transcript.words] == [
        ("a", 0.0, 0.185),
        ("fifth", 0.185, 0.738),
        ("fret", 0.738, 1.2),
    ]


def test_punctuation_stays_on_the_word() -> None:
    transcript = read(("00:00.000", "00:02.000", 'the fifth fret, okay. "yes"'))
    assert [word.text for word in transcript.words] == ["the", "fifth", "fret,", "okay.", '"yes"']


def test_words_end_where_an_overlapping_cue_begins() -> None:
    transcript = read(("00:00.000", "00:04.000", "one two"), ("00:02.000", "00:06.000", "three"))
    assert [(word.start, word.end) for word in transcript.words] == [(0.0, 1.0), (1.0, 2.0), (2.0, 6.0)]


def test_cues_that_begin_together_take_turns() -> None:
    transcript = read(("00:00.000", "00:04.000", "one two"), ("00:00.000", "00:04.000", "six ten"))
    assert [word.start for word in transcript.words] == [0.0, 1.0, 2.0, 3.0]


GAPS = [
    ("silence of 2.5 s", [(0.0, 1.0, "a"), (3.5, 4.0, "b")], [(1.0, 3.5, "")]),
    ("shorter silence", [(0.0, 1.0, "a"), (3.4, 4.0, "b")], []),
    ("before the first word", [(3.0, 4.0, "a")], [(0.0, 3.0, "")]),
    (
        "a label and the silence round it",
        [(0.0, 1.0, "a"), (2.0, 8.0, "[Music]"), (9.0, 10.0, "b")],
        [(1.0, 9.0, "Music")],
    ),
    (
        "a short label",
        [(0.0, 1.0, "a"), (1.0, 2.0, "(strums)"), (2.0, 3.0, "b")],
        [(1.0, 2.0, "strums")],
    ),
    (
        "the longest label names the gap",
        [(0.0, 1.0, "a"), (1.0, 2.0, "[Laughter]"), (2.0, 9.0, "[Music]")],
        [(1.0, 9.0, "Music")],
    ),
    (
        "a label under the talk is no gap",
        [(0.0, 4.0, "[Music]"), (0.0, 4.0, "a b c")],
        [],
    ),
    (
        "silence after an exact word",
        [(0.0, 8.0, "now <00:01.000>listen <00:07.000>right")],
        [(1.37, 7.0, "")],
    ),
    (
        "a label with an exact time",
        [(0.0, 4.0, "a <00:01.000>[Music] <00:03.000>b")],
        [(1.0, 3.0, "Music")],
    ),
    (
        "a label before the words of its cue",
        [(0.0, 10.0, "[Music] a")],
        [(0.0, 9.63, "Music")],
    ),
]


@pytest.mark.parametrize(("cues", "expected"), [case[1:] for case in GAPS], ids=[case[0] for case in GAPS])
def test_gaps(cues: list[tuple[float, float, str]], expected: list[tuple[float, float, str]]) -> None:
    timed = [(stamp(round(start * 1000)), stamp(round(end * 1000)), text) for start, end, text in cues]
    assert gaps(read(*timed)) == expected


WORD = st.sampled_from(
    ["so", "7,", "fret.", "[Music]", "(plays)", "♪", "hammer-on", "&amp;", "<i>12</i>", "\n"]
)
MOMENT = st.integers(min_value=0, max_value=600_000)
INLINE = st.one_of(WORD, MOMENT.map(lambda moment: f"<{stamp(moment)}>"))
CUES = st.lists(st.tuples(MOMENT, MOMENT, st.lists(INLINE, min_size=1, max_size=6)), max_size=8)


@given(CUES)
def test_times_rise_and_lie_inside_their_cue(cues: list[tuple[int, int, list[str]]]) -> None:
    timed = [(stamp(start), stamp(end), " ".join(words)) for start, end, words in cues]
    transcript = read(("00:00.000", "00:01.000", "so"), *timed)
    edges = [edge for word in transcript.words for edge in (word.start, word.end)]
    assert edges == sorted(edges)
    for word in transcript.words:
        cue = transcript.cues[word.cue]
        assert cue.start <= word.start <= word.end <= cue.end
    for gap in transcript.gaps:
        assert all(word.end <= gap.start or word.start >= gap.end for word in transcript.words)
        assert gap.start < gap.end <= transcript.duration
    assert list(transcript.gaps) == sorted(transcript.gaps, key=lambda gap: gap.start)


TALK = st.lists(
    st.lists(st.text("abcdefgEADGB0123456789'.,-", min_size=1, max_size=6), min_size=1, max_size=8),
    min_size=1,
)


@given(TALK)
def test_words_rejoin_to_the_text_of_their_cue(lines: list[list[str]]) -> None:
    cues = [
        (stamp(n * 2500), stamp(n * 2500 + 2000), f"x {' '.join(words)}") for n, words in enumerate(lines)
    ]
    transcript = read(*cues)
    for number, cue in enumerate(transcript.cues):
        assert " ".join(word.text for word in transcript.words if word.cue == number) == cue.text
