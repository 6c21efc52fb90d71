from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.checks.hearing import heard_for


@pytest.mark.parametrize(
    ("number", "heard"), [(30, (13, 3, 0)), (57, (5, 7)), (4, (14,)), (14, (4, 1)), (0, ()), (-1, ())]
)
def test_heard_for(number: int, heard: tuple[int, ...]) -> None:
    assert heard_for(number) == heard


@given(st.integers(-5, 10_000))
def test_never_itself_never_twice(number: int) -> None:
    heard = heard_for(number)
    assert number not in heard
    assert len(set(heard)) == len(heard)
