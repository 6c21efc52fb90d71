"""The strokes of a phrase in the order in which they are played, each with its pitch and its neighbours."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from notesgen.lesson.model import LEGATO, Event, Repeat
from notesgen.pack.layout.sounding.beats import first_beat, steps
from notesgen.pack.layout.sounding.order import playing_order
from notesgen.pack.layout.sounding.pitches import harmonic, sounding
from notesgen.pack.layout.sounding.tone import Voice
from notesgen.pack.layout.strokes import Stroke, strokes

HELD = 4.0
"""Beats for which a string is kept sounding for a hammer-on, pull-off, slide or release that is to come,
while other strings are played. Common practice, no source."""


class Played(Struct, frozen=True):
    """An event in playing order. `until`: the beat on which the next one begins; `closes`: none follows."""

    event: Event
    beat: float
    until: float
    closes: bool


class Struck(Struct, frozen=True):
    """One stroke of a played event. `joins`: it goes on from the stroke before it on its string."""

    played: Played
    stroke: Stroke
    midi: int
    voice: Voice
    joins: bool
    after: Struck | None = None

    @property
    def beat(self) -> float:
        """Where it begins."""
        return self.played.beat


def in_order(events: Sequence[Event], repeats: Iterable[Repeat]) -> list[Played]:
    """The events with repeats written out, each on its beat."""
    made = steps(events)
    beat = first_beat(events)
    order = playing_order([event.id for event in events], repeats)
    played: list[Played] = []
    for turn, place in enumerate(order, start=1):
        until = beat + made[place].beats
        played.append(Played(events[place], beat, until, closes=turn == len(order)))
        beat = until
    return played


def struck(played: Iterable[Played], opened: Mapping[int, int]) -> list[Struck]:
    """One for each stroke that has a pitch, the thickest string first where they begin together.

    `opened` holds the MIDI note numbers of the open strings.
    """
    made: list[Struck] = []
    last: dict[int, Struck] = {}
    for one in played:
        for stroke in {stroke.string: stroke for stroke in reversed(strokes(one.event))}.values():
            found = _pitch(stroke, opened)
            if found is not None:
                midi, voice = found
                joins = _joins(stroke, voice, one.beat, last.get(stroke.string))
                made.append(Struck(one, stroke, midi, voice, joins))
                last[stroke.string] = made[-1]
    return _with_next(made)


def _with_next(made: Sequence[Struck]) -> list[Struck]:
    """Each with the one after it on its string. That one's own `after` is left out."""
    told: list[Struck] = []
    coming: dict[int, Struck] = {}
    for one in reversed(made):
        told.append(
            Struck(one.played, one.stroke, one.midi, one.voice, one.joins, coming.get(one.stroke.string))
        )
        coming[one.stroke.string] = one
    return told[::-1]


def _pitch(stroke: Stroke, opened: Mapping[int, int]) -> tuple[int, Voice] | None:
    string = opened.get(stroke.string)
    if string is None:
        return None
    midi = sounding(string + _above_open(stroke))
    return None if midi is None else (midi, _voice(stroke))


def _voice(stroke: Stroke) -> Voice:
    if stroke.fret == "x":
        return "dead"
    if stroke.how == "harmonic":
        return "harmonic"
    return "muted" if "palm-mute" in stroke.marks else "string"


def _above_open(stroke: Stroke) -> int:
    """Semitones above the open string."""
    if stroke.fret == "x":
        return 0
    return harmonic(stroke.fret) if stroke.how == "harmonic" else stroke.fret


def _joins(stroke: Stroke, voice: Voice, beat: float, before: Struck | None) -> bool:
    if before is None or stroke.how not in LEGATO:
        return False
    return "dead" not in (voice, before.voice) and beat - before.beat <= HELD
