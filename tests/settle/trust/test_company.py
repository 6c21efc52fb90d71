"""The company that a number keeps: a fret to play, or a number in talk."""

from __future__ import annotations

import pytest

from notesgen.rehearsal.run import hear
from notesgen.settle.trust.clues import Company

CASES = [
    ("play the 7 on the G", Company()),
    ("play the 9 kettles", Company(bare=1, unread_behind=1)),
    ("play the 9 and people wake", Company(bare=1, others=1)),
    ("hammer on to 7, and then the 9 is lovely", Company(bare=1, unread_behind=1, stated=1)),
    ("play 3", Company(bare=1, counting=1)),
]
"""The last note of each talk, and those of its clues that are told apart here."""


def companies(heard: str) -> list[Company]:
    return [note.clues.company for note in hear(heard).drafted.heard]


@pytest.mark.parametrize(("heard", "wanted"), CASES)
def test_company(heard: str, wanted: Company) -> None:
    got = companies(heard)[-1]
    told = ("bare", "unread_behind", "stated", "counting", "others")
    assert {name: getattr(got, name) for name in told} == {name: getattr(wanted, name) for name in told}


def test_words_of_playing_far_off_and_sentences_that_open_with_the_number() -> None:
    (alone,), (told,) = companies("9. The kettle sings."), companies("and you hit 9 on the G")
    assert (alone.opens, alone.far_from_playing) == (1, 1)
    assert told.far_from_playing == 0


def test_the_share_of_remarks_around_it() -> None:
    (plain,) = companies("play 7 on the G")
    (remarks,) = companies("my ring finger, at 92 beats per minute, play 7 on the G")
    assert plain.remarks == 0 < remarks.remarks
