"""The same work for many lessons, on all cores."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from concurrent.futures import ProcessPoolExecutor
from typing import TypeVar

Given = TypeVar("Given")
Done = TypeVar("Done")


def each(work: Callable[[Given], Done], given: Iterable[Given]) -> list[Done]:
    """What `work`, a function of a module, makes of each of `given`, in order."""
    with ProcessPoolExecutor() as workers:
        return list(workers.map(work, given))
