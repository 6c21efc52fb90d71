"""The strings of a tuning: their names, their labels beside a tab, and what the tuning is called."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.music.pitch import midi
from notesgen.music.tuning import named, string_names

NAMES = (
    "standard",
    "half step down",
    "whole step down",
    "drop D",
    "double drop D",
    "drop C#",
    "drop C",
    "drop B",
    "DADGAD",
    "open C",
    "open D",
    "open E",
    "open G",
    "open A",
    "drop A",
    "low G",
)
"""What players call tunings, the commonest first; notesgen.music.tuning knows which pitches they mean."""


def letters(tuning: Sequence[str]) -> list[str]:
    """The note names without octave, string 1 first: "Eb4" as "Eb"."""
    return [pitch.rstrip("-0123456789") for pitch in tuning]


def tuning_letters(tuning: Sequence[str]) -> str:
    """The tuning as it is said, from the lowest string up: "E A D G B E"."""
    return " ".join(reversed(letters(tuning)))


def tuning_name(tuning: Sequence[str], instrument: str = "guitar") -> str | None:
    """What players call the tuning; None where it, or the instrument, has no name here."""
    try:
        sounding = [midi(pitch) for pitch in tuning]
        known = ((name, named(name, instrument)) for name in NAMES)
        return next((name for name, found in known if found and [midi(p) for p in found] == sounding), None)
    except ValueError:
        return None


def string_labels(tuning: Sequence[str], count: int = 0) -> list[str]:
    """The labels beside a tab, string 1 first, padded to one width; at least `count` of them.

    The thinnest string stands in small letters, as e above E. A string that the tuning does not have is
    labelled by its number.
    """
    labels = letters(tuning)
    labels[:1] = [label.lower() for label in labels[:1]]
    labels += [str(string) for string in range(len(labels) + 1, count + 1)]
    width = max(map(len, labels), default=0)
    return [label.ljust(width) for label in labels]


def string_name(tuning: Sequence[str], string: int) -> str:
    """The string as a teacher says it: "high E string", "G string"; "string 7" where the tuning has none."""
    names = string_names(tuple(tuning))
    return f"{names[string - 1]} string" if 1 <= string <= len(names) else f"string {string}"
