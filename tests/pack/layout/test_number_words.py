"""Numbers in the form in which others were said, against text2num, an independent reader of number words."""

from __future__ import annotations

import pytest
from text_to_num import text2num

from notesgen.pack.layout.number_words import cardinal, like, ordinal


@pytest.mark.parametrize("number", range(1, 100))
def test_number_words_are_read_as_that_number(number: int) -> None:
    assert text2num(cardinal(number), "en") == number


@pytest.mark.parametrize(
    ("text", "number", "told"),
    [
        ("9", 10, "10"),
        ("nine", 10, "ten"),
        ("Nine", 21, "Twenty-one"),
        ("ninth", 12, "twelfth"),
        ("9th", 11, "11th"),
        ("3rd", 22, "22nd"),
        ("twentieth", 30, "thirtieth"),
        ("twenty-first", 22, "twenty-second"),
        ("five", 0, "zero"),
        ("five", 105, "105"),
        ("fifth", 113, "113th"),
    ],
)
def test_the_form_is_kept(text: str, number: int, told: str) -> None:
    assert like(text, number) == told


def test_ordinals_up_to_a_hundred() -> None:
    assert [ordinal(number) for number in (1, 20, 21, 40, 53)] == [
        "first",
        "twentieth",
        "twenty-first",
        "fortieth",
        "fifty-third",
    ]
