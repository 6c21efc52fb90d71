"""Repeats written out: the order in which things are played."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeVar

from msgspec import Struct

from notesgen.lesson.model import Repeat

MOST_PASSES = 16
"""Of one repeat. More adds nothing to listen to: the page has its loop."""
T = TypeVar("T")


class Span(Struct, frozen=True, order=True):
    """Written places `start` to `end`, both played `times` times. Sorts outer spans before inner ones."""

    start: int
    minus_end: int
    times: int

    @property
    def end(self) -> int:
        """The last place."""
        return -self.minus_end


def playing_order(ids: Sequence[str], repeats: Iterable[Repeat]) -> list[int]:
    """The places of `ids` as they are played.

    A repeat may hold others. One that leads out of `ids` or backwards, or that begins within another and
    ends behind it, is played once.
    """
    place = {name: at for at, name in enumerate(ids)}
    found = {
        (place[repeat.first], place[repeat.last]): min(max(repeat.times, 1), MOST_PASSES)
        for repeat in repeats
        if repeat.first in place and repeat.last in place
    }
    spans = sorted(Span(start, -end, times) for (start, end), times in found.items() if start <= end)
    return _played(0, len(ids) - 1, _nested(spans))


def _nested(spans: Iterable[Span]) -> list[Span]:
    """The spans without those that cross one before them."""
    kept: list[Span] = []
    around: list[Span] = []
    for span in spans:
        while around and around[-1].end < span.start:
            around.pop()
        if not around or span.end <= around[-1].end:
            kept.append(span)
            around.append(span)
    return kept


def _played(start: int, end: int, spans: Sequence[Span]) -> list[int]:
    """The places from `start` to `end`; all `spans` lie between them."""
    order: list[int] = []
    at = start
    inner = 0
    while inner < len(spans):
        outer = spans[inner]
        inside = next((n for n in range(inner + 1, len(spans)) if spans[n].start > outer.end), len(spans))
        order += range(at, outer.start)
        order += _played(outer.start, outer.end, spans[inner + 1 : inside]) * outer.times
        at, inner = outer.end + 1, inside
    return [*order, *range(at, end + 1)]
