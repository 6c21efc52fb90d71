"""The shapes in which chords are first learnt on a guitar in standard tuning, near the nut.

Common practice, no source: where books differ, the shape that most of them show first.
"""

from __future__ import annotations

from types import MappingProxyType

from notesgen.music.pitch import pitch_class

SHAPES = MappingProxyType(
    {
        "C": "x32010",
        "D": "xx0232",
        "E": "022100",
        "F": "133211",
        "G": "320003",
        "A": "x02220",
        "B": "x24442",
        "Cm": "x35543",
        "Dm": "xx0231",
        "Em": "022000",
        "Fm": "133111",
        "Gm": "355333",
        "Am": "x02210",
        "Bm": "x24432",
        "F#m": "244222",
        "C#m": "x46654",
        "Bb": "x13331",
        "C7": "x32310",
        "D7": "xx0212",
        "E7": "020100",
        "G7": "320001",
        "A7": "x02020",
        "B7": "x21202",
        "Am7": "x02010",
        "Dm7": "xx0211",
        "Em7": "022030",
        "Cmaj7": "x32000",
        "Dmaj7": "xx0222",
        "Fmaj7": "xx3210",
        "Gmaj7": "320002",
        "Amaj7": "x02120",
    }
)
"""Chord -> frets from the thickest string to the thinnest, "x" for a string that is left out."""

STRINGS = 6


def shape(name: str) -> dict[int, int]:
    """The frets of a chord's first shape by string (1 = thinnest); {} where none is known."""
    frets = SHAPES.get(name, "")
    return {STRINGS - at: int(fret) for at, fret in enumerate(frets) if fret != "x"}


def sounds_standard(tuning: tuple[str, ...]) -> bool:
    """Whether the shapes hold in a tuning (string 1 first): its strings stand apart as the usual ones do."""
    classes = [pitch_class(name[:-1]) for name in tuning]
    usual = [pitch_class(letter) for letter in ("E", "B", "G", "D", "A", "E")]
    return len(classes) == STRINGS and len({(a - b) % 12 for a, b in zip(classes, usual, strict=True)}) == 1
