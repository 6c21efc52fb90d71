"""A tune laid on the neck: the least-cost path through string, fret and position of the hand.

After Sayegh 1989, "Fingering for string instruments with the optimum path paradigm"; the costs are our own
(common practice, no source). Nothing of notesgen is used: tuning and pitches are counted here, from the MIDI
numbers of the open strings, so that an error there cannot hide an error here.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

OPEN = (64, 59, 55, 50, 45, 40)  # E4 B3 G3 D3 A2 E2, string 1 first
HIGHEST = 15
SPAN = 4  # frets under the hand, one a finger
SHIFT, EACH_FRET, STRETCH, CROSSING, OPEN_AWAY = 3.0, 0.4, 1.5, 0.3, 4.0


class Place(Struct, frozen=True):
    """A string (1 the thinnest), a fret (0 open), and the position: the first finger's fret."""

    string: int
    fret: int
    position: int

    @property
    def pitch(self) -> int:
        """MIDI note number."""
        return OPEN[self.string - 1] + self.fret

    @property
    def finger(self) -> int:
        """1 to 4, 0 for an open string; a stretched fourth finger counts as the fourth."""
        return 0 if self.fret == 0 else min(self.fret - self.position + 1, SPAN)


def octaves(pitches: Sequence[int]) -> list[int]:
    """The semitones by whole octaves, highest first, that bring all pitches on to the first HIGHEST frets."""
    low, high = OPEN[-1], OPEN[0] + HIGHEST
    return [
        shift for shift in range(24, -37, -12) if min(pitches) + shift >= low and max(pitches) + shift <= high
    ]


def finger(pitches: Sequence[int]) -> tuple[Place, ...]:
    """The cheapest places for pitches in a row. ValueError if one lies outside the neck."""
    best: dict[Place, tuple[float, tuple[Place, ...]]] = {}
    for number, pitch in enumerate(pitches):
        options = _places(pitch)
        if not options:
            raise ValueError(f"Pitch {pitch} is not on the first {HIGHEST} frets.")
        best = (
            {place: _reach(place, best) for place in options}
            if number
            else {p: (_alone(p), (p,)) for p in options}
        )
    return min(best.values(), key=lambda found: found[0])[1] if best else ()


def _places(pitch: int) -> list[Place]:
    """Each string that has the pitch, in each position that covers it, the little finger stretched or not."""
    found: list[Place] = []
    for string, open_pitch in enumerate(OPEN, start=1):
        fret = pitch - open_pitch
        if 0 <= fret <= HIGHEST:
            positions = range(1, HIGHEST + 1) if fret == 0 else range(max(1, fret - SPAN), fret + 1)
            found.extend(Place(string, fret, position) for position in positions)
    return found


def _reach(
    place: Place, best: dict[Place, tuple[float, tuple[Place, ...]]]
) -> tuple[float, tuple[Place, ...]]:
    cost, path = min(
        ((cost + _move(path[-1], place), path) for cost, path in best.values()), key=lambda found: found[0]
    )
    return cost + _alone(place), (*path, place)


def _alone(place: Place) -> float:
    if place.fret == 0:
        return 0.0 if place.position <= SPAN else OPEN_AWAY
    return STRETCH if place.fret == place.position + SPAN else 0.0


def _move(former: Place, place: Place) -> float:
    shift = abs(former.position - place.position)
    return (SHIFT + EACH_FRET * shift if shift else 0.0) + CROSSING * abs(former.string - place.string)
