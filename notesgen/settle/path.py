"""The cheapest path through all holes, and by how much each other choice loses.

A Viterbi search over the candidates of each step, as the fingering literature does it (Sayegh 1989,
"Fingering for string instruments with the optimum path paradigm"). The forward and the backward pass
together give min-marginals: for each candidate, the cost of the best path through it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from msgspec import Struct

State = TypeVar("State")


class Choice(Struct, frozen=True):
    """The chosen candidate of one step, and the extra cost of the best path through each candidate.

    `cost` is that of the cheapest path, the same for all its steps.
    """

    best: int
    margins: tuple[float, ...]
    cost: float

    @property
    def margin(self) -> float:
        """By how much the second-best candidate loses; infinite when there is no other."""
        others = [m for at, m in enumerate(self.margins) if at != self.best]
        return min(others, default=float("inf"))


def cheapest_path(
    layers: Sequence[Sequence[State]],
    own: Callable[[int, State], float],
    move: Callable[[int, State, State], float],
) -> list[Choice]:
    """One choice a layer. `own(layer, state)` is a state's cost, `move(layer, before, state)` a step's.

    Every layer needs at least one state. Linear in the number of layers.
    """
    if not layers:
        return []
    costs = [[own(at, state) for state in layer] for at, layer in enumerate(layers)]
    moves = [
        [[move(at, before, state) for state in layers[at]] for before in layers[at - 1]]
        for at in range(1, len(layers))
    ]
    ahead = _forward(costs, moves)
    behind = _backward(costs, moves)
    total = [[f + b for f, b in zip(fs, bs, strict=True)] for fs, bs in zip(ahead, behind, strict=True)]
    return [_choice(row) for row in total]


def _choice(row: list[float]) -> Choice:
    lowest = min(row)
    return Choice(row.index(lowest), tuple(cost - lowest for cost in row), lowest)


def _forward(costs: list[list[float]], moves: list[list[list[float]]]) -> list[list[float]]:
    """The cheapest way to each state, its own cost included."""
    table = [costs[0]]
    for at in range(1, len(costs)):
        before, step = table[-1], moves[at - 1]
        table.append(
            [own + min(b + step[i][j] for i, b in enumerate(before)) for j, own in enumerate(costs[at])]
        )
    return table


def _backward(costs: list[list[float]], moves: list[list[list[float]]]) -> list[list[float]]:
    """The cheapest way from each state to the end, its own cost left out."""
    table = [[0.0] * len(costs[-1])]
    for at in range(len(costs) - 1, 0, -1):
        after, step = table[-1], moves[at - 1]
        table.append([min(row[j] + costs[at][j] + after[j] for j in range(len(after))) for row in step])
    return table[::-1]
