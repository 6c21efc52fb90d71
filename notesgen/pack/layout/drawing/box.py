"""A position as a stretch of the neck, as it lies before the player: the thinnest string above."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from xml.etree import ElementTree as ET

from notesgen.lesson.model import Key, Position
from notesgen.music.pitch import midi, pitch_class
from notesgen.pack.layout.drawing import ink
from notesgen.pack.layout.drawing import measures as m
from notesgen.pack.layout.drawing.figure import Figure
from notesgen.pack.layout.strings import string_labels, string_name

FRET = 30.0  # from fret to fret
FEWEST = 4  # frets, as many as the hand spans
DOT = 4.6
NUT = 3.0

Place = tuple[int, int]


def box_figure(position: Position, tuning: Sequence[str], key: Key | None = None) -> Figure:
    """The box with a dot for each note; with a key, an open ring for each of its tonics.

    Frets count from the capo, as the key of the shapes does. The numbers below name the frets.
    """
    places, ringed = _places(position), tonics(position, tuning, key)
    count = max([len(tuning), *(string for string, _ in places)])
    first = max(1, min((fret for _, fret in places), default=1))
    last = max([first + FEWEST - 1, *(fret for _, fret in places)])
    left = m.SMALL * 2 + (FRET * 0.6 if any(fret == 0 for _, fret in places) else 0)
    drawn = [
        *_neck(left, count, last - first + 1, nut=first == 1),
        *_names(tuning, count),
        *(_fret_number(left, fret, first, count) for fret in range(first, last + 1)),
        *(_note(place, left, first, place in ringed) for place in sorted(places)),
    ]
    width = left + (last - first + 1) * FRET + m.EDGE
    height = (count - 1) * m.SPACE + 2 * m.EDGE + m.BELOW
    title = f"Position on the neck, {position.label}"
    return ink.document(drawn, width, height, title, _words(position, tuning), -m.EDGE)


def _neck(left: float, strings: int, frets: int, nut: bool) -> list[ET.Element]:
    right, bottom = left + frets * FRET, (strings - 1) * m.SPACE
    across = [ink.line((left, y * m.SPACE), (right, y * m.SPACE), m.HAIR) for y in range(strings)]
    wires = [ink.line((left + n * FRET, 0), (left + n * FRET, bottom), m.FINE) for n in range(frets + 1)]
    return [*across, *wires, *([ink.line((left, 0), (left, bottom), NUT)] if nut else [])]


def _names(tuning: Sequence[str], count: int) -> Iterable[ET.Element]:
    for at, label in enumerate(string_labels(tuning, count)):
        yield ink.text((m.SMALL * 1.3, at * m.SPACE + 3.1), label, m.SMALL, text_anchor="end")


def _fret_number(left: float, fret: int, first: int, strings: int) -> ET.Element:
    x = left + (fret - first + 0.5) * FRET
    return ink.text((x, (strings - 1) * m.SPACE + m.BELOW), str(fret), m.SMALL)


def _note(place: Place, left: float, first: int, tonic: bool) -> ET.Element:
    string, fret = place
    at = (left + ((fret - first + 0.5) * FRET if fret else -FRET * 0.3), (string - 1) * m.SPACE)
    return ink.ringed(at, DOT) if tonic else ink.dot(at, DOT)


def tonics(position: Position, tuning: Sequence[str], key: Key | None) -> frozenset[Place]:
    """The (string, fret) of the box that sound the tonic; none without a key, or on a string of no pitch."""
    return frozenset(p for p in _places(position) if key and _sounds(p, tuning, key.tonic))


def _sounds(place: Place, tuning: Sequence[str], note: str) -> bool:
    string, fret = place
    try:
        return (midi(tuning[string - 1]) + fret) % 12 == pitch_class(note)
    except (ValueError, IndexError):
        return False


def _places(position: Position) -> list[Place]:
    return [(int(string), fret) for string, frets in position.frets.items() for fret in frets]


def _words(position: Position, tuning: Sequence[str]) -> str:
    """The box read out, the thickest string first, as teachers do."""
    rows = sorted(position.frets.items(), key=lambda row: -int(row[0]))
    told = (f"{string_name(tuning, int(string))}: {', '.join(map(str, frets))}" for string, frets in rows)
    return "; ".join(told) + "."
