"""The likeliest way to lay one ordered row on another: no crossing, no place taken twice."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct


class Candidate(Struct, frozen=True):
    """A place, numbered in order from 0, and how much speaks for it (above 0)."""

    rank: int
    likeness: float


def best_chain(rows: Sequence[Sequence[Candidate]]) -> list[int | None]:
    """One place or none for each row, ranks rising from row to row, the sum of likeness the greatest.

    Runs in n log n of the candidates. Of chains that weigh the same, the one with earlier places is taken.
    """
    best = _Best(1 + max((one.rank for row in rows for one in row), default=-1))
    steps: list[_Step] = []
    for row, candidates in enumerate(rows):
        grown = []
        for one in candidates:
            weight, last = best.below(one.rank)
            grown.append((one.rank, weight + one.likeness, len(steps)))
            steps.append(_Step(row, one.rank, last))
        for rank, weight, step in grown:
            best.put(rank, weight, step)
    chosen: list[int | None] = [None] * len(rows)
    _, at = best.below(best.size)
    while at is not None:
        chosen[steps[at].row] = steps[at].rank
        at = steps[at].before
    return chosen


class _Step(Struct, frozen=True):
    """One candidate taken after another (an index of steps, None at the start)."""

    row: int
    rank: int
    before: int | None


class _Best:
    """The heaviest chain that ends below a rank: a tree of prefix maxima (Fenwick 1994, "A new data structure
    for cumulative frequency tables", with the greatest in place of the sum)."""

    def __init__(self, size: int) -> None:
        self.size = size
        self._tree: list[tuple[float, int | None]] = [(0.0, None)] * (size + 1)

    def below(self, rank: int) -> tuple[float, int | None]:
        """(weight, last step) of the heaviest chain of ranks under `rank`."""
        heaviest: tuple[float, int | None] = (0.0, None)
        while rank > 0:
            if self._tree[rank][0] > heaviest[0]:
                heaviest = self._tree[rank]
            rank &= rank - 1
        return heaviest

    def put(self, rank: int, weight: float, step: int) -> None:
        """A chain of that weight ends on `rank`."""
        at = rank + 1
        while at <= self.size:
            if weight > self._tree[at][0]:
                self._tree[at] = (weight, step)
            at += at & -at
