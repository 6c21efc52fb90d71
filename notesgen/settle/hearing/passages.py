"""Which notes a passage has: those told since the teacher last played, or since the heading."""

from __future__ import annotations

from itertools import pairwise

from notesgen.settle.hearing.telling import Telling

PLAYED = 5.0  # seconds without talk in which the teacher plays what was taught


def passage(telling: Telling, whole: bool) -> list[int]:
    """The places that "that" stands for: since the teacher last played, or since the heading."""
    first = telling.loops[-1].last + 1 if telling.loops else 0
    places: list[int] = []
    for place in range(len(telling.steps) - 1, first - 1, -1):
        step = telling.steps[place]
        after = telling.steps[places[0]] if places else step
        if step.section != len(telling.sections):
            break
        if not whole and played_between(telling, step.end, after.start):
            break
        places.insert(0, place)
    return places


def played_between(telling: Telling, start: int, end: int) -> bool:
    """Whether the teacher played for a while between two items."""
    pairs = pairwise(telling.items[max(0, start - 1) : end + 1])
    return any(after.start - before.end >= PLAYED for before, after in pairs)
