"""Where the hand is, and what it tells of its fingers."""

from __future__ import annotations

import pytest

from notesgen.settle.hearing.hand import Hand

FIFTH = Hand().at(5)


@pytest.mark.parametrize(("finger", "fret"), [(1, 5), (2, 6), (3, 7), (4, 8)])
def test_a_finger_a_fret_from_the_first(finger: int, fret: int) -> None:
    assert FIFTH.fret_of(finger) == fret
    assert FIFTH.is_sure_of(finger)


def test_a_finger_said_to_be_at_a_fret_is_there() -> None:
    stretched = FIFTH.put(4, 9)
    assert stretched.fret_of(4) == 9
    assert stretched.fret_of(1) == 5


@pytest.mark.parametrize(
    ("finger", "fret", "base", "declared"),
    [
        (1, 7, 7, True),  # the first finger tells where the hand is
        (3, 12, 10, False),  # another one far away takes the hand along
        (3, 8, 5, True),  # a stretch leaves it
    ],
)
def test_the_hand_goes_where_its_fingers_are(finger: int, fret: int, base: int, declared: bool) -> None:
    hand = FIFTH.put(finger, fret)
    assert (hand.base, hand.declared) == (base, declared)


def test_fingers_left_behind_are_forgotten() -> None:
    moved = FIFTH.put(4, 8).put(1, 9)
    assert set(moved.fingers) == {1}


def test_a_slide_takes_all_fingers_along() -> None:
    assert FIFTH.put(3, 7).moved(2).fret_of(3) == 9
    assert FIFTH.moved(2).fret_of(1) == 7


@pytest.mark.parametrize(("fret", "known"), [(0, True), (4, True), (9, True), (10, False), (3, False)])
def test_a_note_out_of_reach_leaves_the_hand_unknown(fret: int, known: bool) -> None:
    assert (FIFTH.reached(fret).base is not None) == known


def test_what_is_held_behind_a_note_lies_on_its_string() -> None:
    hand = FIFTH.put(1, 5, (4,)).put(3, 7, (3,))
    assert hand.behind(8, (4,)) == 5
    assert hand.behind(8, (3,)) == 7
    assert hand.behind(8, (2,)) is None
    assert hand.behind(5, (4,)) is None
