"""Which note of the draft stands for which note of the right answer.

An edit distance in playing order: leaving a note out or putting one in costs 1, taking one for another
costs by how much of it is right, and a little more the further apart the two lie in time.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from tests.accuracy.gold import Sounded

Pair = tuple[int | None, int | None]
"""(index in the gold, index in the draft); None where one side has no counterpart."""

Wanted = TypeVar("Wanted")
Got = TypeVar("Got")

GAP = 1.0
HALF_RIGHT = 0.9  # the string or the fret is right
ALL_WRONG = 1.5
TIME_WEIGHT = 0.5  # for notes a minute or more apart
SAME = 1e-9


def difference(wanted: Sounded, got: Sounded) -> float:
    """What it costs to take one note for the other."""
    apart = TIME_WEIGHT * min(abs(wanted.time - got.time) / 60.0, 1.0)
    right = (wanted.string == got.string) + (wanted.fret == got.fret)
    return (ALL_WRONG, HALF_RIGHT, 0.0)[right] + apart


def align(gold: Sequence[Wanted], draft: Sequence[Got], differ: Callable[[Wanted, Got], float]) -> list[Pair]:
    """The pairs of a cheapest alignment, in order. Among equals a pairing goes before a gap."""
    cost = _table(gold, draft, differ)
    pairs: list[Pair] = []
    i, j = len(gold), len(draft)
    while i or j:
        if i and j and _equal(cost[i][j], cost[i - 1][j - 1] + differ(gold[i - 1], draft[j - 1])):
            i, j = i - 1, j - 1
            pairs.append((i, j))
        elif i and _equal(cost[i][j], cost[i - 1][j] + GAP):
            i -= 1
            pairs.append((i, None))
        else:
            j -= 1
            pairs.append((None, j))
    return pairs[::-1]


def _table(
    gold: Sequence[Wanted], draft: Sequence[Got], differ: Callable[[Wanted, Got], float]
) -> list[list[float]]:
    """`[i][j]`: the least cost of aligning the first i notes of the gold with the first j of the draft."""
    table = [[j * GAP for j in range(len(draft) + 1)]]
    for i, wanted in enumerate(gold, start=1):
        above, row = table[-1], [i * GAP]
        for j, got in enumerate(draft, start=1):
            row.append(min(above[j - 1] + differ(wanted, got), above[j] + GAP, row[j - 1] + GAP))
        table.append(row)
    return table


def _equal(a: float, b: float) -> bool:
    return abs(a - b) < SAME
