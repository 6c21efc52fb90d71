"""What each note asks of the hands, in plain words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from operator import itemgetter

from notesgen.lesson.model import Event, Fret, Mark
from notesgen.pack.layout.strings import string_name
from notesgen.pack.layout.strokes import Stroke, strokes

AMOUNTS = {
    0.5: "a quarter tone",
    1.0: "a half step",
    1.5: "three quarters of a step",
    2.0: "a whole step",
    3.0: "a step and a half",
    4.0: "two whole steps",
}
NUMBERS = ("three", "four", "five", "six", "seven", "eight", "nine", "ten")
OFTEN = ("once", "twice", *(f"{number} times" for number in NUMBERS))
MARKS: dict[Mark, str] = {
    "vibrato": "vibrato",
    "slide-in": "slide in",
    "slide-out": "slide off",
    "palm-mute": "palm mute",
    "let-ring": "let it ring",
    "staccato": "short",
    "accent": "accent",
    "rake": "rake",
}


def often(times: int) -> str:
    """ "twice", "three times", "12 times"."""
    return OFTEN[times - 1] if 1 <= times <= len(OFTEN) else f"{times} times"


def count(number: int) -> str:
    """ "two", "ten", "12"."""
    names = ("one", "two", *NUMBERS)
    return names[number - 1] if 1 <= number <= len(names) else str(number)


def event_words(event: Event, before: dict[int, Fret], tuning: Sequence[str]) -> str:
    """The event without its string if it is one note, "together: ..." with the strings if it is several.

    `before` gives the fret last played on each string.
    """
    told = [
        (_stroke(stroke, before.get(stroke.string)), string_name(tuning, stroke.string))
        for stroke in strokes(event)
    ]
    words = told[0][0] if len(told) == 1 else f"together: {_together(told)}"
    marks = ", ".join(MARKS[mark] for mark in event.marks)
    return f"{words} ({marks})" if marks else words


def _together(told: Iterable[tuple[str, str]]) -> str:
    """(what, string) pairs as "3 on the D string and A string; 5 on the G string"."""
    alike = [(words, [string for _, string in pairs]) for words, pairs in groupby(told, key=itemgetter(0))]
    return "; ".join(f"{words} on the {_listed(strings)}" for words, strings in alike)


def _stroke(stroke: Stroke, before: Fret | None) -> str:
    place = _place(stroke.fret)
    match stroke.how:
        case "hammer-on" | "pull-off":
            return f"{stroke.how} to {_target(stroke.fret)}"
        case "slide":
            return f"slide{_direction(stroke.fret, before)} to {_target(stroke.fret)}"
        case "bend":
            return f"bend {place}{_amount(stroke.bend)}"
        case "pre-bend":
            return f"bend {place}{_amount(stroke.bend)} before striking it"
        case "release":
            return f"release the bend to {place}"
        case "trill":
            return f"trill between {place} and {'the next note' if stroke.to is None else stroke.to}"
        case "tap":
            return f"tap {place}"
        case "harmonic":
            return f"harmonic over {place}"
        case _:
            return place


def _place(fret: Fret) -> str:
    names: dict[Fret, str] = {0: "open", "x": "a dead note"}
    return names.get(fret, str(fret))


def _target(fret: Fret) -> str:
    return "the open string" if fret == 0 else _place(fret)


def _direction(fret: Fret, before: Fret | None) -> str:
    if fret == "x" or before is None or before == "x" or fret == before:
        return ""
    return " up" if fret > before else " down"


def _amount(bend: float | None) -> str:
    if bend is None:
        return " (how far was not said)"
    return f" up {AMOUNTS.get(bend, f'{bend / 2:g} steps')}"


def _listed(parts: Sequence[str]) -> str:
    """ "a, b and c"."""
    *most, end = parts
    return f"{', '.join(most)} and {end}" if most else end
