"""When each event of a phrase begins, in beats.

A lesson that is only talked through has no rhythm: its events follow each other in even eighth notes. Where a
recording has told the beat of an event and of the next one, that counts. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby, pairwise

from msgspec import Struct

from notesgen.lesson.model import Event

EIGHTH = 0.5
RAKE = 0.25
"""The pick is dragged over muted strings on the way to a note. That takes no beat of its own: all strings of
a rake together sound so long before the note, at the expense of the note before them."""

SHORTEST = 1 / 32
"""What a recording tells as quicker than this, or as backwards, was heard wrongly."""


class Step(Struct, frozen=True):
    """`beats` until the next event as it is written; `known` where a recording told them."""

    beats: float
    known: bool


def steps(events: Sequence[Event]) -> list[Step]:
    """One step an event."""
    told = [_told(event, after) for event, after in pairwise(events)]
    if events:
        told.append(EIGHTH if _beat(events[-1]) is not None else None)
    assumed = _assumed(events)
    return [Step(assumed[n] if beats is None else beats, beats is not None) for n, beats in enumerate(told)]


def first_beat(events: Sequence[Event]) -> float:
    """Where in its beat the phrase begins: 0 on the beat. Silence in whole beats before it is left out."""
    told = _beat(events[0]) if events else None
    if told is None:
        return 1.0 - RAKE if events and _is_raked(events[0]) else 0.0
    return told % 1.0


def _assumed(events: Sequence[Event]) -> list[float]:
    """The steps where nothing is known of them."""
    made: list[float] = []
    for raked, run in groupby(events, key=_is_raked):
        count = len(list(run))
        if raked and made:
            made[-1] = EIGHTH - RAKE
        made += [RAKE / count if raked else EIGHTH] * count
    return made


def _told(event: Event, after: Event) -> float | None:
    here, there = _beat(event), _beat(after)
    if here is None or there is None or there - here < SHORTEST:
        return None
    return there - here


def _is_raked(event: Event) -> bool:
    return "rake" in event.marks


def _beat(event: Event) -> float | None:
    return event.played.beat if event.played else None
