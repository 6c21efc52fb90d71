"""The neck with a position on it."""

from __future__ import annotations

from xml.etree import ElementTree as ET

from notesgen.lesson.model import Key, Position
from notesgen.pack.layout.drawing.box import box_figure

SVG = "{http://www.w3.org/2000/svg}"
STANDARD = ("E4", "B3", "G3", "D3", "A2", "E2")
BOX = Position("box one", 0.0, {"6": (5, 8), "1": (5, 8)}, "")


def test_a_dot_for_each_note_and_a_number_for_each_fret() -> None:
    figure = box_figure(BOX, STANDARD)
    root = ET.fromstring(figure.svg)
    assert len(list(root.iter(f"{SVG}circle"))) == 4
    texts = [text.text for text in root.iter(f"{SVG}text")]
    assert texts == ["e", "B", "G", "D", "A", "E", "5", "6", "7", "8"]
    assert figure.alt == "Position on the neck, box one: low E string: 5, 8; high E string: 5, 8."


def test_the_tonic_is_ringed() -> None:
    # A on the two E strings lies at fret 5.
    root = ET.fromstring(box_figure(BOX, STANDARD, Key("A", "minor pentatonic")).svg)
    assert len(list(root.iter(f"{SVG}circle"))) == 2


def test_open_strings_stand_left_of_the_nut() -> None:
    root = ET.fromstring(box_figure(Position("open", 0.0, {"3": (0, 2)}, ""), STANDARD).svg)
    dots = sorted(float(dot.get("cx", "")) for dot in root.iter(f"{SVG}circle"))
    nut = next(p for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "3")
    assert dots[0] < float(nut.get("d", "")[1:].split(",")[0]) < dots[1]
