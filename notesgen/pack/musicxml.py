"""`lesson.musicxml`: the lesson as a score of two staves, notes above tab (W3C MusicXML 4.0).

Strings, frets, techniques, repeats and the declared positions are written; the rhythm is not known, and the
file says so. With a capo, the notes are written as the shapes that are played, and `transpose` tells the
sound. Guitars and basses stand an octave above their sound, by their clef.
"""

from __future__ import annotations

from xml.etree import ElementTree

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.score.bars import bars
from notesgen.pack.layout.score.build import element
from notesgen.pack.layout.score.head import PART, head
from notesgen.pack.layout.score.measures import measures
from notesgen.pack.layout.style import PLAIN, Style
from notesgen.pack.layout.titles import titles

FILE = "lesson.musicxml"
# The declaration that the specification gives ("MusicXML 4.0, Document type definition").
HEAD = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" '
    '"http://www.musicxml.org/dtds/partwise.dtd">\n'
)


def render(lesson: Lesson, style: Style = PLAIN) -> str | None:
    """The score as XML; None for a lesson without notes."""
    made = bars(lesson, titles(lesson))
    if not made:
        return None
    part = element("part", *measures(made, lesson.facts), id=PART)
    score = element("score-partwise", *head(lesson), part, version="4.0")
    ElementTree.indent(score)
    return HEAD + ElementTree.tostring(score, encoding="unicode") + "\n"
