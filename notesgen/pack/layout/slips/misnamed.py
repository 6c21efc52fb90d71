"""A note whose name and place do not agree: which of the two was the slip, once the teacher has said so."""

from __future__ import annotations

import re

from notesgen.lesson.model import Flag, Note, Option
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.score.necks import neck
from notesgen.pack.layout.score.spelling import spell
from notesgen.pack.layout.slips.said import Said, Slip, frets, notes_of, pair

# As the drafts word it, see notesgen.settle.doubts.
_NAMED = re.compile(r"You call this note (?P<name>\S+), but (?P<place>.+?) is another\.")
_SIGNS = {-2: "bb", -1: "b", 0: "", 1: "#", 2: "##"}


def misnamed(flag: Flag, option: Option, said: Said) -> Slip | None:
    """The slip, if the option is right; None where no name was said, or no place that could be wrong."""
    found = _NAMED.match(flag.message)
    if found is None:
        return None
    name, time = found["name"], clock(flag.start)
    called = name[:1].upper() + name[1:]
    notes = notes_of(option) or said.written(flag)
    place = _by_name(option.label, name)
    if place is None:
        right = _name(notes[0], flag.start, said) if notes else None
        return Slip(flag.start, f"At {time} I call the note {called}; it's {right}.") if right else None
    numbers = said.of(flag.events)
    if not numbers:
        return None
    sentence = f"At {time} I say {found['place']}; it's {place}, the {called}."
    return Slip(flag.start, sentence, *(pair(numbers, frets(notes)) or ()))


def _by_name(label: str, name: str) -> str | None:
    """The place in a label that follows the name: "Eb: 4 on the B string", "fret 5, the A"; else None."""
    if label.startswith(f"{name}: "):
        return label.removeprefix(f"{name}: ")
    return label.removesuffix(f", the {name}") if label.endswith(f", the {name}") else None


def _name(note: Note, at: float, said: Said) -> str | None:
    """The note's name in the key, by shape as the teacher speaks: "Bb"."""
    played = neck(said.facts, at)
    pitch = played.pitch(note.string, note.fret)
    if pitch is None:
        return None
    spelled = spell(pitch, played.signature)
    return spelled.step + _SIGNS[spelled.alter]
