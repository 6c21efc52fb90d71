"""Which notes of a lesson lie outside its key, and whether that can be the key at all."""

from __future__ import annotations

from collections import Counter

from msgspec import Struct

from notesgen.checks.tones import Tones, tones
from notesgen.checks.view import InPlace, how, in_place, number, on_string, other_fret, single
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Event, Key, Lesson, Note

_FEW = 3
"""So many outside notes never put a key in doubt, however short the lesson."""

# A bend is judged where it arrives (bend_misses); a harmonic does not sound what its fret does.
_NOT_JUDGED = frozenset({"bend", "pre-bend", "release", "harmonic"})


class Fit(Struct, frozen=True):
    """An event in its key: how many notes could be judged, and which lie outside with nothing said of it.

    `passing` marks a step of a chromatic run, which explains itself.
    """

    place: InPlace
    tones: Tones
    judged: int
    outside: tuple[Note, ...]
    passing: bool


def fits(lesson: Lesson, evidence: Evidence) -> tuple[Fit, ...]:
    """All events of which at least one note can be judged."""
    found = []
    for place in in_place(lesson):
        event = place.event
        scale = tones(lesson, event.start)
        judged = tuple(note for note in event.notes if scale and _pitches(scale, event, note))
        if scale is None or not judged:
            continue
        announced = event.id in evidence.outside
        outside = () if announced else tuple(note for note in judged if not _inside(scale, event, note))
        found.append(Fit(place, scale, len(judged), outside, _is_passing(place)))
    return tuple(found)


def doubtful_keys(found: tuple[Fit, ...]) -> frozenset[Key]:
    """The keys outside which more than a quarter of their notes lie, chromatic runs not counted."""
    judged: Counter[Key] = Counter()
    outside: Counter[Key] = Counter()
    for fit in found:
        judged[fit.tones.key] += fit.judged
        outside[fit.tones.key] += 0 if fit.passing else len(fit.outside)
    return frozenset(key for key in judged if outside[key] > max(_FEW, judged[key] / 4))


def _pitches(scale: Tones, event: Event, note: Note) -> tuple[int, ...]:
    """The pitches by which a note is judged: both of a trill, none of what is not judged."""
    if how(event, note) in _NOT_JUDGED:
        return ()
    frets = (number(note), other_fret(event, note))
    pitches = (scale.pitch(note.string, fret) for fret in frets if fret is not None)
    return tuple(pitch for pitch in pitches if pitch is not None)


def _inside(scale: Tones, event: Event, note: Note) -> bool:
    return all(scale.fits(pitch) for pitch in _pitches(scale, event, note))


def _is_passing(place: InPlace) -> bool:
    """Whether the note joins its neighbours on the string, a semitone to either side."""
    note = single(place.event)
    if note is None or not place.inside_phrase:
        return False
    fret = number(note)
    sides = [on_string(neighbour, note.string) for neighbour in (place.before, place.after)]
    around = {number(side) for side in sides if side}
    return fret is not None and around == {fret - 1, fret + 1}
