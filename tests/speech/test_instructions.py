"""Reading an instruction's slots."""

from __future__ import annotations

import pytest

from notesgen.speech.instructions import Instruction, SlotValue

SAID = Instruction(
    "note",
    0,
    5,
    (
        SlotValue("fret", (7, 9), 0, 2),
        SlotValue("fret", 10, 2, 3),
        SlotValue("string", "G", 3, 4),
        SlotValue("count", 2.0, 4, 5),
        SlotValue("mark", None, 4, 5),
    ),
)


def test_all_values_of_a_slot_laid_flat() -> None:
    assert SAID.all("fret") == (7, 9, 10)
    assert SAID.all("to") == ()


@pytest.mark.parametrize(
    ("name", "text", "number", "whole"),
    [
        ("fret", "7", 7.0, 7),
        ("string", "G", None, None),
        ("count", "2.0", 2.0, 2),
        ("mark", None, None, None),
        ("to", None, None, None),
    ],
)
def test_the_first_value(name: str, text: str | None, number: float | None, whole: int | None) -> None:
    assert (SAID.text(name), SAID.number(name), SAID.whole(name)) == (text, number, whole)
