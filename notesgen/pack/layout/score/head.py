"""What stands before the music: title, rights, where the score comes from, and the part."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.footnotes import RIGHTS
from notesgen.pack.layout.score.build import element, text
from notesgen.pack.layout.score.directions import RHYTHM

PART = "P1"
INSTRUMENT = "P1-I1"
# General MIDI Level 1, counted from 1: acoustic guitar (nylon), (steel), electric bass (finger).
NYLON, STEEL, FINGERED_BASS = 25, 26, 34


def head(lesson: Lesson) -> Iterator[Element]:
    """The elements before the part."""
    yield element("work", element("work-title", text(lesson.facts.title) or "Guitar lesson"))
    yield element(
        "identification",
        element("rights", RIGHTS),
        element("encoding", element("software", "notesgen")),
        element("source", lesson.source.captions),
        element("miscellaneous", element("miscellaneous-field", RHYTHM, name="rhythm")),
    )
    yield element("part-list", _part(lesson.facts.instrument))


def _part(instrument: str) -> Element:
    name = text(instrument).capitalize() or "Guitar"
    return element(
        "score-part",
        element("part-name", name),
        element("score-instrument", element("instrument-name", name), id=INSTRUMENT),
        element(
            "midi-instrument",
            element("midi-channel", 1),
            element("midi-program", _program(instrument)),
            id=INSTRUMENT,
        ),
        id=PART,
    )


def _program(instrument: str) -> int:
    if "bass" in instrument:
        return FINGERED_BASS
    return NYLON if instrument == "ukulele" else STEEL
