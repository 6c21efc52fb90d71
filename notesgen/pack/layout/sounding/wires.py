"""One string as a MIDI channel plays it: notes on and off, and the pitch wheel between them.

MIDI 1.0 Detailed Specification: a channel has one pitch wheel, 14 bits wide, its rest in the middle.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal

from msgspec import Struct

from notesgen.pack.layout.sounding.tone import Tone

TICKS = 480
"""A beat."""
GRID = 12
"""Ticks from one move of the wheel to the next while a pitch glides: finer than an ear tells apart."""
OVERLAP = 10
"""Ticks for which both notes of a slur sound, by which a player of MIDI knows that it is one."""
RANGE = 24
"""Semitones that the wheel reaches to either side: the longest slide on a neck of 24 frets."""
MIDDLE = 8192
"""Steps of the wheel from its rest to its end."""
LOUDEST = 110
"""The velocity of what is played as loud as can be."""

Kind = Literal["off", "wheel", "on", "late off"]
# What comes first where things happen at once. The old note of a slur ends after the new one has begun.
RANK: dict[Kind, int] = {"off": 0, "wheel": 1, "on": 2, "late off": 3}


class Act(Struct, frozen=True):
    """What the channel does at a tick. `value`: a note number, or the wheel from -8192 to 8191."""

    tick: int
    kind: Kind
    value: int
    velocity: int = 0


def acts(tones: Sequence[Tone]) -> list[Act]:
    """All that the channel of a string does, in order. `tones` are that string's, their beats from tick 0."""
    made: list[Act] = []
    for tone, after in pairwise([*tones, None]):
        if tone is not None:
            made += _tone(tone, after)
    if tones:
        made.append(Act(ticks(tones[-1].end), "wheel", 0))
    return _without_idle_wheels(sorted(made, key=lambda act: (act.tick, RANK[act.kind])))


def ticks(beat: float) -> int:
    """The tick nearest to a beat."""
    return round(beat * TICKS)


def wheel(offset: float) -> int:
    """The wheel for so many semitones above the note; no further than it reaches."""
    return max(-MIDDLE, min(MIDDLE - 1, round(offset * MIDDLE / RANGE)))


def _tone(tone: Tone, after: Tone | None) -> Iterator[Act]:
    yield from _wheels(tone)
    if tone.begins != "held":
        yield Act(ticks(tone.beat), "on", tone.midi, max(1, round(tone.loud * LOUDEST)))
    if after is None or after.begins != "held":
        yield _off(tone, after)


def _off(tone: Tone, after: Tone | None) -> Act:
    if after is None or not after.joined or after.midi == tone.midi:
        return Act(ticks(tone.end), "off", tone.midi)
    # Where the wheel jumps back as the new note begins, the old one may not sound on: it would jump along.
    still = tone.last_offset == 0 and _first_offset(after) == 0
    overlap = min(OVERLAP, ticks(after.length) // 2) if still else 0
    return Act(ticks(tone.end) + overlap, "late off", tone.midi)


def _first_offset(tone: Tone) -> float:
    return tone.curve[0][1] if tone.curve else 0.0


def _wheels(tone: Tone) -> Iterator[Act]:
    """The curve in steps. It has arrived a tick before the tone ends."""
    yield Act(ticks(tone.beat), "wheel", wheel(_first_offset(tone)))
    for (start, low), (end, high) in pairwise(tone.curve):
        first, last = ticks(tone.beat + start), min(ticks(tone.beat + end), ticks(tone.end) - 1)
        for tick in range(first + GRID, last, GRID):
            yield Act(tick, "wheel", wheel(low + (high - low) * (tick - first) / (last - first)))
        yield Act(last, "wheel", wheel(high))


def _without_idle_wheels(made: Sequence[Act]) -> list[Act]:
    """Without moves of the wheel to where it is."""
    kept: list[Act] = []
    stands = 0
    for act in made:
        if act.kind == "wheel":
            if act.value == stands:
                continue
            stands = act.value
        kept.append(act)
    return kept
