"""What a repair takes over from the slip."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from notesgen.settle.hearing.corrections import corrected, told
from notesgen.settle.step import Step, Voice

SLIP = Step((Voice(8, (2,)),), 0, 1, 0, 1, how="bend", bend=2.0, marks=("vibrato",), before=(2,))


def repair(*voices: Voice) -> Step:
    return Step(voices, 3, 4, 0, 1)


@pytest.mark.parametrize(
    ("why", "voice", "mended"),
    [
        ("the string stands where none is said", Voice(10), Voice(10, (2,))),
        ("a string said counts", Voice(10, (3,)), Voice(10, (3,))),
    ],
)
def test_string(why: str, voice: Voice, mended: Voice) -> None:
    assert corrected(SLIP, repair(voice)).voices == (mended,), why


def test_technique_bend_marks_and_strings_in_force_stand() -> None:
    mended = corrected(SLIP, repair(Voice(10)))
    assert (mended.how, mended.bend, mended.marks, mended.before) == ("bend", 2.0, ("vibrato",), (2,))
    assert mended.corrected == "8"


def test_another_technique_has_its_own_bend() -> None:
    mended = corrected(SLIP, replace(repair(Voice(10)), how="slide"))
    assert (mended.how, mended.bend) == ("slide", None)


def test_marks_are_kept_once() -> None:
    mended = corrected(SLIP, replace(repair(Voice(10)), marks=("vibrato", "accent")))
    assert mended.marks == ("vibrato", "accent")


def test_one_voice_puts_the_second_of_a_pair_right() -> None:
    pair = repair(Voice(9, (3,)), Voice(10, (2,)))
    assert corrected(pair, repair(Voice(8))).voices == (Voice(9, (3,)), Voice(8, (2,)))


def test_a_pair_takes_the_place_of_what_was_there() -> None:
    pair = (Voice(9, (3,)), Voice(8, (2,)))
    assert corrected(SLIP, repair(*pair)).voices == pair


def test_told_in_words() -> None:
    assert told(repair(Voice(9), Voice("x"))) == "9 and x"
