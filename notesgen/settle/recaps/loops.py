"""Counts said in a recap: they speak of the passage that is told over, not of the telling."""

from __future__ import annotations

from collections.abc import Mapping

from notesgen.settle.step import Step
from notesgen.settle.told import Loop


def loops_of_what_was_told(
    loops: tuple[Loop, ...], steps: tuple[Step, ...], sources: Mapping[int, int]
) -> tuple[Loop, ...]:
    """The loops, with those over retold notes laid over the notes first told, once each.

    `sources` gives for the place of a retold step the place that it retells.
    """
    found: dict[tuple[int, int], Loop] = {}
    until = -1
    for loop in loops:
        run = _run(loop.last, until, steps, sources)
        first, last = (min(run), max(run)) if run else (loop.first, loop.last)
        found.setdefault((first, last), Loop(first, last, loop.times, loop.open))
        until = loop.last
    return tuple(found.values())


def _run(last: int, until: int, steps: tuple[Step, ...], sources: Mapping[int, int]) -> list[int]:
    """What is retold in the sentence of step `last`, back to the count before it."""
    run: list[int] = []
    for place in range(last, until, -1):
        if place not in sources or steps[place].sentence != steps[last].sentence:
            break
        run.append(sources[place])
    return run
