"""Strings for holes: what words and music cost, on steps made by hand."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from notesgen.lesson.model import How
from notesgen.music.fretboard import Fretboard
from notesgen.music.scale import pitch_classes
from notesgen.music.tuning import standard
from notesgen.settle import costs
from notesgen.settle.assign import Assigned, Ground, assign
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Relation, Step, Strings, Voice
from notesgen.settle.told import Naming
from tests.speech.talk import cut

ITEMS = cut("a " * 9 + "b. " + "a " * 9 + "b.")  # two sentences of ten items
SENTENCES = Sentences(ITEMS)
GROUND = Ground(Fretboard(standard("guitar")), None, ())


def step(at: int, fret: int, *named: int, how: How = "pick", closes: bool = False) -> Step:
    voices = (Voice(fret, named),)
    return Step(voices, at, at + 1, SENTENCES.of(at), 1, how=how, closes=closes)


def settled(
    *steps: Step,
    namings: tuple[Naming, ...] = (),
    moving: frozenset[int] = frozenset(),
    ground: Ground = GROUND,
) -> tuple[Assigned, ...]:
    return assign(steps, namings, SENTENCES, moving, ground)


def strings(found: tuple[Assigned, ...]) -> list[Strings]:
    return [one.strings for one in found]


def naming(at: int, *string: int) -> Naming:
    return Naming(at, at + 1, tuple((one,) for one in string), SENTENCES.of(at))


CASES = [
    ("as named", (step(0, 7, 3), step(2, 8, 2)), (), [3, 2]),
    ("carried on", (step(0, 7, 3), step(2, 9), step(4, 10)), (), [3, 3, 3]),
    ("carried into the next sentence", (step(0, 7, 3), step(11, 9)), (), [3, 3]),
    (
        "a string behind a list",
        (step(0, 5, 4), step(11, 7), step(12, 9), step(13, 10, 2, closes=True)),
        (),
        [4, 2, 2, 2],
    ),
    ("a string before the notes", (step(2, 7), step(3, 9)), (naming(0, 4),), [4, 4]),
    ("a string named anew", (step(0, 7, 3), step(4, 9)), (naming(2, 4),), [3, 4]),
    ("legato stays on its string", (step(0, 7, 3), step(2, 5, how="pull-off")), (), [3, 3]),
    ("named off the neck stands as named", (step(0, 30, 3),), (), [3]),
]


@pytest.mark.parametrize(("why", "steps", "namings", "expected"), CASES)
def test_strings(why: str, steps: tuple[Step, ...], namings: tuple[Naming, ...], expected: list[int]) -> None:
    assert strings(settled(*steps, namings=namings)) == [(string,) for string in expected], why


def test_a_named_string_has_no_rival() -> None:
    (one,) = settled(step(0, 7, 3))
    assert (one.margin, one.others) == (float("inf"), ())


def test_a_string_that_nobody_named_is_in_doubt() -> None:
    (one,) = settled(step(0, 7))
    assert one.margin < costs.CLEAR
    assert set(one.others) | {one.strings} == {(string,) for string in range(1, 7)}


def test_two_strings_of_one_letter_are_in_doubt() -> None:
    (one,) = settled(step(0, 3, 1, 6))
    assert {one.strings, *one.others} == {(1,), (6,)}
    assert one.margin < costs.CLEAR


def test_the_key_tells_strings_apart() -> None:
    key = replace(GROUND, key=pitch_classes("C", "major"))
    before, (one, _) = settled(step(0, 1, 2, 3)), settled(step(0, 1, 2, 3), step(1, 1, 2), ground=key)
    assert one.strings == (2,)  # C; the first fret of string 3 is G#
    assert one.margin >= before[0].margin


def test_down_may_be_by_the_hand_when_the_key_says_so() -> None:
    key = replace(GROUND, key=pitch_classes("C", "major"))
    down = replace(step(1, 1, 1, 3), by=Relation((1,), turns=True))  # G# by pitch, F by the hand
    assert strings(settled(step(0, 1, 2), down)) == [(2,), (3,)]
    assert strings(settled(step(0, 1, 2), down, ground=key)) == [(2,), (1,)]


def test_a_note_name_tells_strings_apart() -> None:
    named = replace(step(0, 5), letter="G")
    assert strings(settled(named)) == [(4,)]


def test_the_box_tells_strings_apart() -> None:
    box = {1: frozenset({5, 8}), 2: frozenset({5, 7})}
    ground = replace(GROUND, boxes=((0, box),))
    assert strings(settled(step(1, 7, 1, 2), ground=ground)) == [(2,)]


def test_moving_on_loosens_a_list_from_its_string() -> None:
    steps = (step(0, 7, 3), step(11, 9), step(14, 10, 2, closes=True))
    close = settled(*steps)
    far = settled(*steps, moving=frozenset({13}))
    assert strings(close) == [(3,), (2,), (2,)]
    assert far[1].margin < close[1].margin


def test_voices_of_a_pair_lie_on_different_strings() -> None:
    pair = Step((Voice(7, (3, 2)), Voice(7, (3, 2))), 0, 1, 0, 1)
    (one,) = settled(pair)
    assert len(set(one.strings)) == 2


def test_nothing_told_needs_no_strings() -> None:
    assert settled() == ()
