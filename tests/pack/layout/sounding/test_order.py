"""Repeats written out."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.lesson.model import Repeat
from notesgen.pack.layout.sounding.order import MOST_PASSES, playing_order


@pytest.mark.parametrize(
    ("repeats", "order"),
    [
        ("", "abcdef"),
        ("a-b2", "ababcdef"),
        ("e-f3", "abcdefefef"),
        ("c-c4", "abccccdef"),
        ("a-f2 b-c2", "abcbcdefabcbcdef"),
        ("a-b2 c-d2", "ababcdcdef"),
        ("a-c2 a-b2", "ababcababcdef"),
        ("a-c2 b-d2", "abcabcdef"),  # crosses the first
        ("d-b2", "abcdef"),  # backwards
        ("a-z2", "abcdef"),  # into nowhere
        ("a-b0", "abcdef"),
        ("b-b99", "a" + "b" * MOST_PASSES + "cdef"),
    ],
)
def test_cases(repeats: str, order: str) -> None:
    told = [Repeat(text[0], text[2], int(text[3:])) for text in repeats.split()]
    assert "".join("abcdef"[place] for place in playing_order("abcdef", told)) == order


PLACES = st.integers(0, 11)


@given(st.lists(st.tuples(PLACES, PLACES, st.integers(0, 4)), max_size=6))
def test_everything_is_played_and_only_repeats_go_back(spans: list[tuple[int, int, int]]) -> None:
    ids = [f"e{n}" for n in range(12)]
    repeats = [Repeat(f"e{first}", f"e{last}", times) for first, last, times in spans]
    order = playing_order(ids, repeats)
    assert set(order) == set(range(12))
    ends = {(last, first) for first, last, _ in spans}
    assert all(there == here + 1 or (here, there) in ends for here, there in pairwise(order))
