"""How each note is written in a plain-text tab. The letters are common practice, no source."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from notesgen.lesson.model import BENDS, Event, Fret
from notesgen.pack.layout.strokes import Stroke, strokes

LETTERS = {"hammer-on": "h", "pull-off": "p", "release": "r", "tap": "t"}
UP, DOWN = "/", "\\"

LEGEND = {
    "hammer-on": ("5h7", "hammer-on from 5 to 7"),
    "pull-off": ("7p5", "pull-off from 7 to 5"),
    "slide": (f"5{UP}7 7{DOWN}5", "slide up, slide down"),
    "slide-in": (f"{UP}7", "slide into 7 from nowhere in particular"),
    "slide-out": (f"7{DOWN}", "slide off 7 to nowhere in particular"),
    "bend": ("7b9", "bend 7 until it sounds like fret 9"),
    "part bend": ("7b(1/4)", "bend 7 by that part of a whole step; 1/4 is a quarter tone"),
    "unsaid bend": ("7b", "bend 7; how far was not said"),
    "pre-bend": ("7pb9", "pre-bend: bend 7 up to 9 before it is struck"),
    "release": ("7b9r7", "bend, then let the string come back to 7"),
    "trill": ("7tr9", "trill: hammer and pull quickly between 7 and 9"),
    "tap": ("t12", "tap 12 with the picking hand"),
    "harmonic": ("<12>", "natural harmonic over fret 12"),
    "vibrato": ("7~", "vibrato"),
    "dead": ("x", "dead note: damp the string and strike"),
    "palm-mute": ("PM--|", "palm mute as far as the line goes"),
    "let-ring": ("ring--|", "let the notes ring"),
    "rake": ("rake--|", "rake across the strings"),
    "accent": (">", "accent"),
    "staccato": (".", "short"),
}
"""What may stand in a tab, with an example of how it is written; keyed by technique or mark."""

NAMES = {
    "part bend": "bend",
    "unsaid bend": "bend",
    "dead": "dead note",
    "slide-in": "slide in",
    "slide-out": "slide off",
    "palm-mute": "palm mute",
    "let-ring": "let ring",
}
"""What the techniques are called, where LEGEND's keys say it otherwise."""


def sign(stroke: Stroke, before: Fret | None) -> str:
    """The stroke as text, with the letter that leads to it. `before` is the fret last played there."""
    return _lead(stroke, before) + _body(stroke) + _tail(stroke)


def _lead(stroke: Stroke, before: Fret | None) -> str:
    if stroke.how == "slide":
        falls = isinstance(before, int) and isinstance(stroke.fret, int) and stroke.fret < before
        return DOWN if falls else UP
    arrives = UP if "slide-in" in stroke.marks else ""
    return LETTERS.get(stroke.how, "") + arrives


def _body(stroke: Stroke) -> str:
    if stroke.how in BENDS:
        letter = "pb" if stroke.how == "pre-bend" else "b"
        return f"{stroke.fret}{letter}{_bent(stroke)}"
    if stroke.how == "trill":
        return f"{stroke.fret}tr{'' if stroke.to is None else stroke.to}"
    return f"<{stroke.fret}>" if stroke.how == "harmonic" else str(stroke.fret)


def _tail(stroke: Stroke) -> str:
    vibrato = "~" if "vibrato" in stroke.marks else ""
    return vibrato + (DOWN if "slide-out" in stroke.marks else "")


def _bent(stroke: Stroke) -> str:
    """The fret that a bend sounds like, or, between frets, its size in whole steps: "9", "(1/4)"."""
    if stroke.bend is None:
        return ""
    if _part_bend(stroke):
        return f"({Fraction(stroke.bend / 2).limit_denominator(8)})"
    return str(int(stroke.fret) + int(stroke.bend))


def _part_bend(stroke: Stroke) -> bool:
    """True for a bend that reaches no fret: a quarter tone, or one on a dead string."""
    return stroke.bend is not None and (stroke.fret == "x" or not float(stroke.bend).is_integer())


def used(events: Iterable[Event]) -> list[str]:
    """The keys of LEGEND that these events need, in the legend's order."""
    found = {key for event in events for stroke in strokes(event) for key in _keys(stroke)}
    return [key for key in LEGEND if key in found]


def techniques(events: Iterable[Event]) -> list[str]:
    """The names of the techniques and marks of these events, each once, in the legend's order."""
    return list(dict.fromkeys(NAMES.get(key, key) for key in used(events)))


def _keys(stroke: Stroke) -> set[str]:
    keys: set[str] = {stroke.how, *stroke.marks}
    if stroke.fret == "x":
        keys.add("dead")
    if stroke.how in BENDS and (stroke.bend is None or _part_bend(stroke)):
        keys.discard("bend")
        keys.add("unsaid bend" if stroke.bend is None else "part bend")
    return keys
