"""Tunings: the open strings as scientific pitches, string 1 (the thinnest) first.

Common practice, no source.
"""

from __future__ import annotations

import re

from notesgen.music import pitch

Tuning = tuple[str, ...]


def _low_to_high(pitches: str) -> Tuning:
    """The tables below read as people say tunings, from the lowest string up."""
    return tuple(reversed(pitches.split()))


_STANDARD = {
    "guitar": _low_to_high("E2 A2 D3 G3 B3 E4"),
    # Its courses, not its strings: the doubled strings are played as one.
    "12-string guitar": _low_to_high("E2 A2 D3 G3 B3 E4"),
    "7-string guitar": _low_to_high("B1 E2 A2 D3 G3 B3 E4"),
    "bass": _low_to_high("E1 A1 D2 G2"),
    "5-string bass": _low_to_high("B0 E1 A1 D2 G2"),
    "ukulele": _low_to_high("G4 C4 E4 A4"),
}

_GUITAR = {
    "drop d": _low_to_high("D2 A2 D3 G3 B3 E4"),
    "double drop d": _low_to_high("D2 A2 D3 G3 B3 D4"),
    "drop c#": _low_to_high("C#2 G#2 C#3 F#3 A#3 D#4"),
    "drop db": _low_to_high("Db2 Ab2 Db3 Gb3 Bb3 Eb4"),
    "drop c": _low_to_high("C2 G2 C3 F3 A3 D4"),
    "drop a": _low_to_high("A1 E2 A2 D3 F#3 B3"),
    "drop b": _low_to_high("B1 F#2 B2 E3 G#3 C#4"),
    "dadgad": _low_to_high("D2 A2 D3 G3 A3 D4"),
    "open c": _low_to_high("C2 G2 C3 G3 C4 E4"),
    "open d": _low_to_high("D2 A2 D3 F#3 A3 D4"),
    "open e": _low_to_high("E2 B2 E3 G#3 B3 E4"),
    "open g": _low_to_high("D2 G2 D3 G3 B3 D4"),
    "open a": _low_to_high("E2 A2 E3 A3 C#4 E4"),
}

_NAMED = {
    "guitar": _GUITAR,
    "12-string guitar": _GUITAR,
    "7-string guitar": {"drop a": _low_to_high("A1 E2 A2 D3 G3 B3 E4")},
    "bass": {"drop d": _low_to_high("D1 A1 D2 G2"), "drop c": _low_to_high("C1 G1 C2 F2")},
    "5-string bass": {"drop a": _low_to_high("A0 E1 A1 D2 G2")},
    "ukulele": {"low g": _low_to_high("G3 C4 E4 A4")},
}

# The standard tuning, so many semitones down: the distance said, or the note that the low E becomes.
_DOWN = {
    **dict.fromkeys(("half step", "semitone"), 1),
    **dict.fromkeys(("whole step", "full step", "whole tone"), 2),
    **dict.fromkeys(("step and half", "three half steps", "minor third"), 3),
    **dict.fromkeys(("two whole steps", "two steps", "two whole tones", "major third"), 4),
}
_LOW_E = {"e": 0, "eb": 1, "d#": 1, "d": 2, "db": 3, "c#": 3, "c": 4, "b": 5}

_INSTRUMENTS = {
    "bass guitar": "bass",
    "uke": "ukulele",
    "acoustic guitar": "guitar",
    "classical guitar": "guitar",
    "electric guitar": "guitar",
}
_HIGH = 3  # so many strings are called high, where a letter comes more than once
_COUNTS = {"four": "4", "five": "5", "six": "6", "seven": "7", "twelve": "12"}
_FILLERS = re.compile(r"\b(an?(?=\s+\w)|the|in|to|by|of|tuning|tuned|tune|everything|all)\b")


def standard(instrument: str) -> Tuning:
    """The standard tuning of an instrument. Raises ValueError if the instrument is not known."""
    return _STANDARD[_instrument(instrument)]


def named(name: str, instrument: str) -> Tuning | None:
    """The tuning of that name ("drop D", "DADGAD", "half step down", "E flat"), or None.

    Raises ValueError if the instrument is not known.
    """
    kind = _instrument(instrument)
    words = _plain(name)
    if words == "standard":
        return _STANDARD[kind]
    if words in _NAMED[kind]:
        return _NAMED[kind][words]
    steps = _steps_down(words, kind)
    return None if steps is None else lowered(_STANDARD[kind], steps)


def lowered(tuning: Tuning, semitones: int) -> Tuning:
    """The tuning with all strings so many semitones lower, written with flats. ValueError below C-1."""
    return (
        tuple(pitch.name(pitch.midi(name) - semitones, flats=True) for name in tuning)
        if semitones
        else tuning
    )


def as_named(tuning: Tuning, usual: Tuning) -> Tuning:
    """The tuning without what lowers all strings alike, whatever the lowest string does besides.

    Db Ab Db Gb Bb Eb is drop D, to those who name its strings and notes; open G stays as it is.
    """
    if len(tuning) != len(usual):
        return tuning
    down = [pitch.midi(usually) - pitch.midi(name) for name, usually in zip(tuning, usual, strict=True)]
    return lowered(tuning, -down[0]) if len(set(down[:-1])) == 1 else tuning


def parse_tuning(text: str, instrument: str = "guitar") -> Tuning:
    """A tuning from a name, from letters low to high, or from pitches low to high.

    "drop D"; "DADGBE" or "Eb Ab Db Gb Bb Eb", each string in the octave nearest to its standard pitch;
    "D2 A2 D3 G3 B3 E4" as it stands. Raises ValueError if it is none of them or has the wrong number of
    strings.
    """
    found = named(text, instrument)
    if found is not None:
        return found
    usual = standard(instrument)
    notes = _notes(text, len(usual))
    if notes is None:
        raise ValueError(
            f'"{text}" is no tuning known here: give a name such as "drop D", '
            f'or the {len(usual)} strings from low to high, such as "{" ".join(_letters(usual))}".'
        )
    if len(notes) != len(usual):
        raise ValueError(f'"{text}" names {len(notes)} strings, but the {instrument} has {len(usual)}.')
    return tuple(
        note if note[-1].isdigit() else nearest(note, usually)
        for note, usually in zip(reversed(notes), usual, strict=True)
    )


def nearest(note: str, usual: str) -> str:
    """The note in the octave nearest to the string's usual pitch, the lower one of two as near."""
    middle = pitch.midi(usual)
    candidates = [f"{note}{octave}" for octave in range(8)]
    return min(candidates, key=lambda name: (abs(pitch.midi(name) - middle), pitch.midi(name)))


def string_names(tuning: Tuning) -> tuple[str, ...]:
    """The strings' letters, string 1 first, with what tells those of one letter apart.

    "high E" and "low E"; in drop D "D" beside "low D"; in DADGAD "high D", "middle D" and "low D".
    """
    letters = [name.rstrip("-0123456789") for name in tuning]
    return tuple(_told_apart(letters, at) for at in range(len(letters)))


def _told_apart(letters: list[str], at: int) -> str:
    alike = [place for place, letter in enumerate(letters) if letter == letters[at]]
    if len(alike) == 1:
        return letters[at]
    if at == alike[-1]:
        return f"low {letters[at]}"
    if at == alike[0]:
        return f"high {letters[at]}" if at < _HIGH else letters[at]
    return f"middle {letters[at]}"


def _instrument(name: str) -> str:
    words = re.sub(r"[\s-]+string\b", "-string", name.strip().lower())
    count, dash, rest = words.partition("-")
    known = _COUNTS.get(count, count) + dash + rest
    known = {"4-string bass": "bass", "6-string guitar": "guitar"}.get(known, known)
    known = _INSTRUMENTS.get(known, known)
    if known not in _STANDARD:
        raise ValueError(f'"{name}" is no instrument known here; give one of {", ".join(_STANDARD)}.')
    return known


def _plain(name: str) -> str:
    """A tuning's name without the words that make no difference: "Drop-D tuning" -> "drop d"."""
    words = _FILLERS.sub(" ", _signs(name.lower()).replace("-", " "))
    return " ".join(words.replace("dropped", "drop").replace("half a step", "half step").split())


def _signs(text: str) -> str:
    text = text.replace("♭", "b").replace("♯", "#")
    text = re.sub(r"\b([a-g])[\s-]+flat\b", r"\1b", text, flags=re.IGNORECASE)
    return re.sub(r"\b([a-g])[\s-]+sharp\b", r"\1#", text, flags=re.IGNORECASE)


def _steps_down(words: str, kind: str) -> int | None:
    distance = " ".join(words.replace("down", " ").split())
    if "down" in words.split() and distance in _DOWN:
        return _DOWN[distance]
    # "E flat" or "D standard" name what becomes of the low E string; a bare "D" could mean anything.
    note = words.removesuffix(" standard")
    if kind == "ukulele" or (note == words and len(note) == 1):
        return None
    return _LOW_E.get(note)


def _notes(text: str, strings: int) -> list[str] | None:
    """The notes that a text lists, with octaves or without, or None if it holds anything else."""
    words = [word for word in re.split(r"[\s,/-]+", _signs(text)) if word]
    if len(words) == 1:
        # Written together: in "dadgbe" the b is a string, in "EbAbDbGbBbEb" a flat.
        choices = [re.findall(note, words[0]) for note in (r"[A-Ga-g][#b]?\d?", r"[A-Ga-g]#?\d?")]
        whole = [notes for notes in choices if "".join(notes) == words[0]]
        words = next((notes for notes in whole if len(notes) == strings), whole[0] if whole else words)
    matches = [re.fullmatch(r"([A-Ga-g])([#b]?)(\d?)", word, re.ASCII) for word in words]
    notes = [match[1].upper() + match[2] + match[3] for match in matches if match]
    octaves = {match[3] != "" for match in matches if match}
    return notes if notes and len(notes) == len(words) and len(octaves) == 1 else None


def _letters(tuning: Tuning) -> list[str]:
    return [name.rstrip("0123456789") for name in reversed(tuning)]
