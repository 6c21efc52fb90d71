"""Whether a probability means what it says: of the notes held to be 95 % sure, how many are right?

Each lesson is judged by weights fitted without it: in folds, since a fit for every lesson takes too long
(Hastie, Tibshirani, Friedman, "The Elements of Statistical Learning", 2nd edition, 7.10).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from tests.accuracy.fit import fitted
from tests.accuracy.trust import Lesson

FOLDS = 8
EDGES = (0.0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98, 1.0)
"""The bins, by how sure the draft is of an event."""


class Held(Struct, frozen=True):
    """How sure the draft is of one event, from 0 to 1, and whether it is right."""

    sure: float
    right: bool


class Bin(Struct, frozen=True):
    """The events held to be sure from `low` up to `high`: how many, how sure on average, the share right."""

    low: float
    high: float
    count: int
    sure: float
    right: float


def judged(lessons: Sequence[Lesson], tunes: Sequence[Lesson]) -> tuple[Held, ...]:
    """Every event of the lessons, by weights of the other lessons and the tunes."""
    held: list[Held] = []
    for fold in range(min(FOLDS, len(lessons))):
        others = [lesson for at, lesson in enumerate(lessons) if at % FOLDS != fold]
        model = fitted(others, tunes)
        held += [
            Held(1 - model.doubt(one.clues).wrong, not (one.note or one.string))
            for lesson in lessons[fold::FOLDS]
            for one in lesson.seen
        ]
    return tuple(held)


def bins(held: Sequence[Held]) -> tuple[Bin, ...]:
    """The reliability table."""
    return tuple(_bins(held))


def calibration_error(table: Sequence[Bin]) -> float:
    """Expected calibration error: how far sureness and share right lie apart, on average over events.

    Guo et al. 2017, "On calibration of modern neural networks", 2, over the bins of the table.
    """
    total = sum(one.count for one in table)
    return sum(one.count * abs(one.sure - one.right) for one in table) / total if total else 0.0


def rows(table: Sequence[Bin]) -> Iterator[str]:
    """The table as lines of text."""
    yield f"{'held to be':<16}{'events':>8}{'sure':>8}{'right':>8}"
    for one in table:
        span = f"{one.low:.0%} to {one.high:.0%}"
        yield f"{span:<16}{one.count:>8}{one.sure:>8.1%}{one.right:>8.1%}"
    yield f"expected calibration error {calibration_error(table):.3f}"


def _bins(held: Sequence[Held]) -> Iterator[Bin]:
    for low, high in itertools.pairwise(EDGES):
        inside = [one for one in held if low <= one.sure < high]
        if inside:
            yield Bin(low, high, len(inside), _mean(o.sure for o in inside), _mean(o.right for o in inside))


def _mean(values: Iterable[float]) -> float:
    found = list(values)
    return sum(found) / len(found)
