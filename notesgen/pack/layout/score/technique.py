"""How each note is played, as MusicXML 4.0 writes it in `notations`."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from notesgen.pack.layout.score.build import element
from notesgen.pack.layout.score.links import Link

WHOLE_STEP = 2.0  # semitones; a bend whose amount was not said
LETTERS = {"hammer-on": "H", "pull-off": "P"}
# Of the sixteen numbers that tell overlapping slurs apart, each staff has its own eight, one a string: a slur
# that is open over a bar line must not end on the other staff.
LEVELS = 8
STAFF, TAB = 0, LEVELS


def fretted(link: Link) -> Element:
    """The notations of a note of the tab."""
    ornaments = _group("ornaments", _ornaments(link, TAB))
    return element("notations", *_lines(link, TAB), ornaments, _technical(link))


def written(link: Link) -> Element | None:
    """The notations of a note on the staff; None where it has none."""
    return _group(
        "notations",
        [
            *_lines(link, STAFF),
            *_present(
                _group("ornaments", _ornaments(link, STAFF)), _group("articulations", _articulations(link))
            ),
        ],
    )


def _lines(link: Link, base: int) -> Iterator[Element]:
    """Slurs, slides and ties, numbered by string, so that those of a chord do not mix."""
    number = _level(link, base)
    if "let-ring" in link.stroke.marks:
        yield element("tied", type_="let-ring")
    if link.slurs_in and not link.slurs_out:
        yield element("slur", type_="stop", number=number)
    if link.slurs_out and not link.slurs_in:
        yield element("slur", type_="start", number=number)
    if link.comes and link.stroke.how == "slide":
        yield element("slide", type_="stop", number=number)
    if link.goes == "slide":
        yield element("slide", type_="start", number=number, line_type="solid")


def _ornaments(link: Link, base: int) -> Iterator[Element]:
    if link.stroke.how == "trill":
        yield element("trill-mark")
    if "vibrato" in link.stroke.marks:
        yield element("wavy-line", type_="start", number=_level(link, base))
        yield element("wavy-line", type_="stop", number=_level(link, base))


def _articulations(link: Link) -> Iterator[Element]:
    marks = link.stroke.marks
    names = {"accent": "accent", "staccato": "staccato", "slide-in": "scoop", "slide-out": "falloff"}
    yield from (element(name) for mark, name in names.items() if mark in marks)


def _technical(link: Link) -> Element:
    """String and fret, and what the hand does. A dead note has no fret of its own: it stands at 0."""
    stroke = link.stroke
    return element(
        "technical",
        *_legato(link),
        *_alone(link),
        *_told(link),
        element("string", stroke.string),
        element("fret", 0 if stroke.fret == "x" else stroke.fret),
    )


def _legato(link: Link) -> Iterator[Element]:
    how, number = link.stroke.how, _level(link, TAB)
    if link.comes and how in LETTERS:
        yield element(how, type_="stop", number=number)
    if link.goes in LETTERS:
        yield element(link.goes, LETTERS[link.goes], type_="start", number=number)


def _alone(link: Link) -> Iterator[Element]:
    match link.stroke.how:
        case "bend":
            yield element("bend", element("bend-alter", _amount(link)))
        case "pre-bend":
            yield element("bend", element("bend-alter", _amount(link)), element("pre-bend"))
        case "release":
            yield element("bend", element("bend-alter", -_amount(link)), element("release"))
        case "harmonic":
            yield element("harmonic", element("natural"), element("touching-pitch"))
        case "tap":
            yield element("tap", "T", hand="right")


def _told(link: Link) -> Iterator[Element]:
    """What MusicXML has no sign for, in words."""
    stroke = link.stroke
    if stroke.how in (*LETTERS, "slide") and not link.comes:
        yield element("other-technical", f"{stroke.how} from nowhere in particular")
    if stroke.how == "bend" and stroke.bend is None:
        yield element("other-technical", "how far to bend was not said")
    if stroke.how == "trill" and stroke.to is not None:
        yield element("other-technical", f"trill with fret {stroke.to}")


def _amount(link: Link) -> float:
    """Semitones of a bend, or of the bend that is released."""
    told = link.stroke.bend
    if link.stroke.how == "release":
        told = link.bent if told is None else told
    return WHOLE_STEP if told is None else told


def _level(link: Link, base: int) -> int:
    return base + (link.stroke.string - 1) % LEVELS + 1


def _group(name: str, children: Iterator[Element] | list[Element]) -> Element | None:
    """The element around its children; None without any."""
    held = list(children)
    return element(name, *held) if held else None


def _present(*found: Element | None) -> Iterator[Element]:
    return (one for one in found if one is not None)
