"""The cheapest path and its margins, against all paths tried one by one."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.settle.path import Choice, cheapest_path

COSTS = st.integers(0, 12).map(lambda quarters: quarters / 4)  # exact in binary, so that sums are too


@st.composite
def problems(draw: st.DrawFn) -> tuple[list[list[float]], list[list[list[float]]]]:
    """Costs of the states of each layer, and of the moves between neighbouring layers."""
    sizes = draw(st.lists(st.integers(1, 4), min_size=1, max_size=5))
    own = [draw(st.lists(COSTS, min_size=size, max_size=size)) for size in sizes]
    move = [
        [draw(st.lists(COSTS, min_size=after, max_size=after)) for _ in range(before)]
        for before, after in pairwise(sizes)
    ]
    return own, move


def solved(own: list[list[float]], move: list[list[list[float]]]) -> list[Choice]:
    layers = [range(len(row)) for row in own]
    return cheapest_path(
        layers, lambda at, state: own[at][state], lambda at, old, new: move[at - 1][old][new]
    )


def cost(path: tuple[int, ...], own: list[list[float]], move: list[list[list[float]]]) -> float:
    moved = sum(move[at][old][new] for at, (old, new) in enumerate(pairwise(path)))
    return moved + sum(own[at][state] for at, state in enumerate(path))


@given(problems())
def test_margins_are_what_the_best_path_through_each_state_costs_more(
    problem: tuple[list[list[float]], list[list[list[float]]]],
) -> None:
    own, move = problem
    costs = {path: cost(path, own, move) for path in product(*(range(len(row)) for row in own))}
    best = min(costs.values())
    for at, choice in enumerate(solved(own, move)):
        through = [min(c for path, c in costs.items() if path[at] == state) for state in range(len(own[at]))]
        assert choice.margins == tuple(c - best for c in through)
        assert choice.margins[choice.best] == 0


@given(problems())
def test_the_chosen_states_make_a_cheapest_path_where_it_is_the_only_one(
    problem: tuple[list[list[float]], list[list[list[float]]]],
) -> None:
    own, move = problem
    chosen = solved(own, move)
    if all(choice.margin > 0 for choice in chosen):
        best = min(cost(path, own, move) for path in product(*(range(len(row)) for row in own)))
        assert cost(tuple(choice.best for choice in chosen), own, move) == best


def test_no_layers_need_no_choices() -> None:
    assert cheapest_path([], lambda at, state: 0.0, lambda at, old, new: 0.0) == []


def test_a_state_without_rivals_wins_by_any_margin() -> None:
    assert solved([[3.0]], [])[0].margin == float("inf")


@pytest.mark.parametrize("length", [1, 10, 500])
def test_each_cost_is_asked_for_once(length: int) -> None:
    asked = {"own": 0, "move": 0}

    def own(at: int, state: int) -> float:
        asked["own"] += 1
        return float(state)

    def move(at: int, old: int, new: int) -> float:
        asked["move"] += 1
        return 0.0

    cheapest_path([range(3)] * length, own, move)
    assert asked == {"own": 3 * length, "move": 9 * (length - 1)}
