"""Whether a run is told over: aligned by hand, and what must hold of any run."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from notesgen.settle.recaps.align import LONG, MOST_TIMES, SKIPPED, Pairs, agrees, align, repeats
from notesgen.settle.step import Step
from tests.settle.recaps.steps import steps


def split(told: str, again: str) -> tuple[list[Step], range, range]:
    """All steps, the places first told and the places of the block."""
    first, second = steps(told), steps(again)
    return first + second, range(len(first)), range(len(first), len(first) + len(second))


def aligned(told: str, again: str) -> tuple[list[tuple[int | None, int]], float]:
    """Pairs by their number in the first telling and in the block, and the share that agrees."""
    all_steps, memory, block = split(told, again)
    pairs, share = align(all_steps, memory, block)
    return [(place, later - len(memory)) for place, later in pairs], share


ALIGNED = [
    ("the same", "5 7 8", "5 7 8", [(0, 0), (1, 1), (2, 2)], 1.0),
    ("the end of what was told", "3 5 7 8", "7 8", [(2, 0), (3, 1)], 1.0),
    ("the beginning", "5 7 8 3", "5 7", [(0, 0), (1, 1)], 1.0),
    ("one fret differs", "5 7 8 6", "5 7 9 6", [(0, 0), (1, 1), (2, 2), (3, 3)], 0.75),
    ("a note left out costs little", "5 7 8 6", "5 8 6", [(0, 0), (2, 1), (3, 2)], 1 - SKIPPED / 3),
    ("a note that was not told", "5 7 8", "5 6 7 8", [(0, 0), (None, 1), (1, 2), (2, 3)], 0.75),
    ("no string against a named one", "3/5 3/7", "5 7", [(0, 0), (1, 1)], 1.0),
    ("damped notes", "x 7", "x 7", [(0, 0), (1, 1)], 1.0),
    ("one note may be all that is said of a pair", "5+5", "5", [(0, 0)], 1.0),
    ("nothing was told", "", "5 7", [(None, 0), (None, 1)], 0.0),
]


@pytest.mark.parametrize(("why", "told", "again", "pairs", "share"), ALIGNED)
def test_alignment(why: str, told: str, again: str, pairs: Pairs, share: float) -> None:
    found, agreed = aligned(told, again)
    assert found == pairs, why
    assert agreed == pytest.approx(share)


def test_other_strings_do_not_agree() -> None:
    assert aligned("3/5 3/7", "2/5 2/7")[1] == 0.0


@pytest.mark.parametrize(
    ("last", "again", "share"), [("4/9", "5 7", 1.0), ("4/9", "4/5 7", 0.0), ("9", "5 7", 0.0)]
)
def test_a_run_that_names_no_string_says_nothing_of_strings(last: str, again: str, share: float) -> None:
    """The string in force is that of the last note, not of what is told over, unless it was named since."""
    all_steps, memory, block = split(f"3/5 3/7 {last}", again)
    told = [*all_steps[: len(memory)], *(replace(step, before=(4,)) for step in all_steps[len(memory) :])]
    assert align(told, memory[:2], block)[1] == share


def test_a_pair_does_not_tell_a_single_note_over() -> None:
    assert aligned("5", "5+5")[1] == 0.0


def test_a_trill_is_told_over_as_its_frets_in_turn() -> None:
    assert aligned("7~9", "7 9 7 9")[1] == 1.0


FRETS = st.lists(
    st.sampled_from(["5", "7", "8", "10", "x", "3/5", "3/7", "2/8", "7~9"]), min_size=1, max_size=7
)
RUNS = FRETS.map(" ".join)


@given(RUNS)
def test_a_run_agrees_fully_with_itself(run: str) -> None:
    pairs, share = aligned(run, run)
    assert share == 1.0
    assert all(place == later for place, later in pairs)


@given(RUNS, RUNS, RUNS)
def test_a_run_is_found_wherever_it_was_told(before: str, run: str, after: str) -> None:
    assert aligned(f"{before} {run} {after}", run)[1] == 1.0


@given(RUNS, RUNS)
def test_every_note_of_the_block_is_paired_once_and_in_order(told: str, again: str) -> None:
    all_steps, memory, block = split(told, again)
    pairs, share = align(all_steps, memory, block)
    later = [step for _, step in pairs]
    assert later == sorted(later) and set(later) == set(block)
    places = [place for place, _ in pairs if place is not None]
    assert places == sorted(places)
    assert 0 <= share <= 1


@given(RUNS, st.integers(1, MOST_TIMES))
def test_a_run_told_several_times_over_is_found(run: str, times: int) -> None:
    all_steps, memory, block = split(f"12 {run}", " ".join([run] * times))
    pairs = repeats(all_steps, memory, block)
    assert pairs is not None
    assert all(
        place is not None and agrees(all_steps, place, later) for place, later in pairs if "~" not in run
    )


REPEATS = [
    ("the run just told", "5 7 8", "5 7 8", True),
    ("twice over", "5 7", "5 7 5 7", True),
    ("its end", "3 5 7", "5 7", True),
    ("not its beginning, when short", "5 7 3", "5 7", False),
    ("its beginning, when long", "5 7 8 6 3", "5 7 8 6", True),
    ("one fret differs", "5 7 8", "5 7 9", False),
    ("more than was told", "5 7", "3 5 7", False),
    ("twice and a half", "5 7", "5 7 5 7 5", False),
    ("nothing was told", "", "5 7", False),
]


@pytest.mark.parametrize(("why", "told", "again", "found"), REPEATS)
def test_repeats(why: str, told: str, again: str, found: bool) -> None:
    assert (repeats(*split(told, again)) is not None) == found, why


def test_long_means_four_notes() -> None:
    assert LONG == 4


@pytest.mark.parametrize(
    ("told", "again", "agree"), [("5", "5", True), ("5", "7", False), ("5+7", "7", True), ("7~9", "9", True)]
)
def test_a_retold_note_agrees_with_any_fret_that_sounded(told: str, again: str, agree: bool) -> None:
    assert agrees(steps(f"{told} {again}"), 0, 1) == agree
