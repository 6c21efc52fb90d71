"""Instructions as examples write them."""

from __future__ import annotations

import pytest

from notesgen.rehearsal.wanted import Wanted, parse, told
from notesgen.speech.instructions import Instruction, SlotValue

TUNING = Instruction(
    "tuning", 0, 6, tuple(SlotValue("letters", letter, i, i + 1) for i, letter in enumerate("DADGBE"))
)
KEY = Instruction("key", 0, 2, (SlotValue("tonic", "E", 0, 1), SlotValue("mode", "minor pentatonic", 1, 3)))
COUNT = Instruction("repeat", 0, 2, (SlotValue("count", 3, 0, 1),))


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("aside", Wanted("aside", {})),
        ("scope string=high E", Wanted("scope", {"string": "high E"})),
        ("key tonic=E mode=minor pentatonic", Wanted("key", {"tonic": "E", "mode": "minor pentatonic"})),
    ],
)
def test_kind_and_slots_are_read(text: str, wanted: Wanted) -> None:
    assert parse(text) == wanted


@pytest.mark.parametrize(
    ("text", "instruction", "fits"),
    [
        ("repeat count=3", COUNT, True),
        ("repeat", COUNT, True),
        ("repeat count=4", COUNT, False),
        ("count count=3", COUNT, False),
        ("repeat label=3", COUNT, False),
        ("key mode=minor pentatonic", KEY, True),
        ("key tonic=E mode=minor", KEY, False),
        ("tuning letters=D A D G B E", TUNING, True),
        ("tuning letters=D", TUNING, True),
        ("tuning letters=A", TUNING, False),
    ],
)
def test_slots_that_are_not_named_may_hold_anything(text: str, instruction: Instruction, fits: bool) -> None:
    assert parse(text).fits(instruction) is fits


@pytest.mark.parametrize("instruction", [TUNING, KEY, COUNT])
def test_what_is_told_fits_again(instruction: Instruction) -> None:
    assert parse(told(instruction)).fits(instruction)
