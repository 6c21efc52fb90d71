"""Numbers in the talk: digits, words, ordinals, plurals, and digits that captions ran together."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.speech.chart import Value
from notesgen.speech.numbers import HIGHEST_FRET, LONGEST_RUN, WIDEST_LEAP, number_edges, split_run
from tests.speech.talk import cut

SPELLED = """
zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen
sixteen seventeen eighteen nineteen
twenty thirty forty fifty sixty seventy eighty ninety
"""
ONES, TENS = SPELLED.split()[:20], SPELLED.split()[20:]


def spelled(number: int) -> str:
    """0 to 99 in words."""
    if number < 20:
        return ONES[number]
    tens, ones = TENS[number // 10 - 2], number % 10
    return f"{tens}-{ONES[ones]}" if ones else tens


def found(text: str) -> set[tuple[str, Value, str]]:
    items = cut(text)
    return {
        (edge.symbol, edge.value, " ".join(item.text for item in items[edge.start : edge.end]))
        for edge in number_edges(items)
    }


CASES: list[tuple[str, set[tuple[str, Value, str]]]] = [
    ("7", {("number", 7, "7")}),
    ("24", {("number", 24, "24")}),
    ("2.5 steps", {("number", 2.5, "2.5")}),
    ("seven", {("number", 7, "seven")}),
    ("twenty two", {("number", 22, "twenty two")}),
    ("twenty-two", {("number", 22, "twenty two")}),
    ("twenty, two", {("number", 20, "twenty"), ("number", 2, "two")}),
    ("five seven nine", {("number", 5, "five"), ("number", 7, "seven"), ("number", 9, "nine")}),
    ("ten twelve", {("number", 10, "ten"), ("number", 12, "twelve")}),
    ("a hundred and twenty", {("number", 120, "hundred and twenty")}),
    ("seven and nine", {("number", 7, "seven"), ("number", 9, "nine")}),
    ("7th", {("ordinal", 7, "7th")}),
    ("the 1st, 2nd and 3rd", {("ordinal", 1, "1st"), ("ordinal", 2, "2nd"), ("ordinal", 3, "3rd")}),
    ("seventh", {("ordinal", 7, "seventh")}),
    ("twenty second", {("ordinal", 22, "twenty second")}),
    ("5s", {("plural", 5, "5s")}),
    ("810", {("number", 810, "810"), ("run", (8, 10), "810")}),
    ("99", {("number", 99, "99"), ("run", (9, 9), "99")}),
    ("1999", {("number", 1999, "1999")}),
    ("7" * 5000, set()),
    ("7" * 5000 + "th", set()),
    ("9" * 400 + ".5", set()),
    ("million million", {("number", 1000000, "million")}),
    ("string", set()),
    ("G", set()),
    ("no number at all", set()),
]


@pytest.mark.parametrize(("text", "expected"), CASES)
def test_numbers(text: str, expected: set[tuple[str, Value, str]]) -> None:
    assert found(text) == expected


def test_plurals_in_words() -> None:
    assert ("plural", 7, "sevens") in found("the sevens")
    assert ("plural", 12, "twelves") in found("twelves")


RUNS = [
    ("810", (8, 10)),
    ("57", (5, 7)),
    ("5787", (5, 7, 8, 7)),
    ("1012", (10, 12)),
    ("121416", (12, 14, 16)),
    ("12", (1, 2)),
    ("320", None),  # an open string is said, not run together
    ("90", None),
    ("1210", (12, 10)),
    ("07", None),
    ("7", None),
    ("19", None),
    ("123456789", None),
    ("", None),
]


@pytest.mark.parametrize(("digits", "frets"), RUNS)
def test_digits_run_together(digits: str, frets: tuple[int, ...] | None) -> None:
    assert split_run(digits) == frets


@given(st.text(alphabet="0123456789", max_size=12))
def test_a_split_run_is_frets_that_make_up_the_digits(digits: str) -> None:
    frets = split_run(digits)
    if frets is None:
        return
    assert "".join(map(str, frets)) == digits
    assert len(frets) > 1 and len(digits) <= LONGEST_RUN
    assert all(0 <= fret <= HIGHEST_FRET for fret in frets)
    assert all(abs(a - b) <= WIDEST_LEAP for a, b in pairwise(frets))


@given(st.lists(st.integers(1, 99), min_size=1, max_size=6))
def test_numbers_in_words_are_those_in_digits(numbers: list[int]) -> None:
    text = ", ".join(map(spelled, numbers))
    edges = [edge for edge in number_edges(cut(text)) if edge.symbol == "number"]
    assert [edge.value for edge in edges] == numbers


@given(
    st.lists(st.sampled_from([*ONES, *TENS, "7", "12", "third", "5th", "and", "hundred", "G"]), max_size=12)
)
def test_edges_lie_inside_the_talk(words: list[str]) -> None:
    items = cut(" ".join(words))
    for edge in number_edges(items):
        assert 0 <= edge.start < edge.end <= len(items)
        assert edge.cost == 0
