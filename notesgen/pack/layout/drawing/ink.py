"""SVG elements, each with all that it needs to look right: SVG 1.1, presentation attributes, no style sheet.

Lengths are points. Ink is `currentColor`: the colour of the text around the drawing, black in a file.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from xml.etree import ElementTree as ET

from notesgen.pack.layout.drawing.figure import Figure

# Faces whose figures stand on the line and are equally wide; the first is the one that a PDF embeds.
FACE = "Libertinus Serif, Palatino, Palatino Linotype, Book Antiqua, Times New Roman, serif"
FIGURE_WIDTH = 0.5  # of the size, for a figure of these faces; letters are taken to be as wide on average
HALF_HEIGHT = 0.32  # of the size, from the middle of a figure down to the line that it stands on
# What XML 1.0, section 2.2, has no place for.
FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")

Point = tuple[float, float]


def number(value: float) -> str:
    """A length with two decimals at most: 3.0 as "3"."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def clean(text: str) -> str:
    """The text on one line, without characters that XML forbids."""
    return " ".join(FORBIDDEN.sub("", text).split())


def text_width(text: str, size: float) -> float:
    """About how wide a text stands."""
    return len(text) * size * FIGURE_WIDTH


def group(children: Iterable[ET.Element], **attributes: str) -> ET.Element:
    """A <g>; an underscore in an attribute's name is written as a hyphen."""
    made = ET.Element("g", _named(attributes))
    made.extend(children)
    return made


def text(at: Point, words: str, size: float, **attributes: str) -> ET.Element:
    """Words centred on a point (give `text_anchor` for another way), standing on its height."""
    placed = {"x": number(at[0]), "y": number(at[1]), "font-size": number(size), "text-anchor": "middle"}
    made = ET.Element("text", placed | _named(attributes))
    made.text = clean(words)
    return made


def line(start: Point, end: Point, width: float, **attributes: str) -> ET.Element:
    """A straight stroke."""
    return stroke(f"M{_pair(start)}L{_pair(end)}", width, **attributes)


def polyline(points: Sequence[Point], width: float, **attributes: str) -> ET.Element:
    """Strokes from point to point."""
    return stroke("M" + "L".join(map(_pair, points)), width, **attributes)


def curve(start: Point, first: Point, second: Point, end: Point, width: float) -> ET.Element:
    """A Bézier curve with its two handles."""
    return stroke(f"M{_pair(start)}C{_pair(first)} {_pair(second)} {_pair(end)}", width)


def stroke(d: str, width: float, **attributes: str) -> ET.Element:
    """A path drawn with a pen of that width."""
    pen = {"d": d, "fill": "none", "stroke": "currentColor", "stroke-width": number(width)}
    return ET.Element("path", pen | _named(attributes))


def shape(points: Sequence[Point]) -> ET.Element:
    """A filled polygon."""
    return ET.Element("path", {"d": "M" + "L".join(map(_pair, points)) + "Z", "fill": "currentColor"})


def lens(start: Point, end: Point, rise: float, thickness: float) -> ET.Element:
    """A slur as engravers draw it: thin at its ends, thicker in the middle, above both points."""
    middle, top = (start[0] + end[0]) / 2, min(start[1], end[1]) - 2 * rise
    over, under = (middle, top), (middle, top + 2 * thickness)
    d = f"M{_pair(start)}Q{_pair(over)} {_pair(end)}Q{_pair(under)} {_pair(start)}Z"
    return ET.Element("path", {"d": d, "fill": "currentColor"})


def dot(at: Point, radius: float) -> ET.Element:
    """A filled circle."""
    return ET.Element("circle", _circle(at, radius) | {"fill": "currentColor"})


def ringed(at: Point, radius: float) -> ET.Element:
    """A ring with a dot in it."""
    x, y = number(at[0]), number(at[1])
    outer, inner = number(radius - 0.6), number(radius / 3)
    d = "".join(
        f"M{x},{y}m-{r},0a{r},{r} 0 1 0 {number(2 * float(r))},0a{r},{r} 0 1 0 -{number(2 * float(r))},0"
        for r in (outer, inner)
    )
    return stroke(d, 1.2)


def area(left: float, top: float, width: float, height: float, **attributes: str) -> ET.Element:
    """A rectangle that is not seen: a place to point at, or for a page to tint."""
    sides = {"x": left, "y": top, "width": width, "height": height}
    return ET.Element(
        "rect", {name: number(side) for name, side in sides.items()} | {"fill": "none"} | _named(attributes)
    )


def document(
    drawn: Iterable[ET.Element], width: float, height: float, title: str, words: str, top: float = 0.0
) -> Figure:
    """The whole drawing, with its title and its content in words for those who do not see it.

    Its left edge is at 0, its upper edge at `top`.
    """
    alt = f"{clean(title)}: {clean(words)}"
    svg = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewBox": f"0 {number(top)} {number(width)} {number(height)}",
            "width": f"{number(width)}pt",
            "height": f"{number(height)}pt",
            "role": "img",
            "aria-label": alt,
            "font-family": FACE,
            "fill": "currentColor",
        },
    )
    ET.SubElement(svg, "title").text = clean(title)
    ET.SubElement(svg, "desc").text = clean(words)
    svg.extend(drawn)
    return Figure(ET.tostring(svg, encoding="unicode"), width, height, alt)


def _named(attributes: dict[str, str]) -> dict[str, str]:
    return {name.rstrip("_").replace("_", "-"): value for name, value in attributes.items()}


def _circle(at: Point, radius: float) -> dict[str, str]:
    return {"cx": number(at[0]), "cy": number(at[1]), "r": number(radius)}


def _pair(point: Point) -> str:
    return f"{number(point[0])},{number(point[1])}"
