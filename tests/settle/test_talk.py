"""The spoken words behind items."""

from __future__ import annotations

from notesgen.settle.talk import Talk
from tests.speech.talk import cut, transcript

TEXT = "So, it's 7 on (4) the G."
TALK = Talk(transcript(TEXT), cut(TEXT))  # so it 's 7 on the g


def test_quotes_are_whole_words_of_the_captions() -> None:
    assert TALK.quote(0, 2) == "So, it's"
    assert TALK.quote(2, 4) == "it's 7"
    assert TALK.quote(6, 7) == "G."
    assert TALK.quote(3, 4, around=1) == "it's 7 on"
    assert TALK.quote(0, 7, around=9) == "So, it's 7 on the G."


def test_times() -> None:
    assert round(TALK.start(3), 3) == 0.4
    assert round(TALK.end(4), 3) == 0.6


def test_long_gaps_are_demonstrations() -> None:
    assert [(round(start, 3), round(end, 3)) for start, end in TALK.demos] == [(0.8, 4.8)]
