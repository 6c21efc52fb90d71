"""The notes and rests of a bar, once on the staff and once in the tab."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from notesgen.pack.layout.score.bars import Bar
from notesgen.pack.layout.score.build import element
from notesgen.pack.layout.score.links import Link
from notesgen.pack.layout.score.necks import Neck
from notesgen.pack.layout.score.spelling import Spelled, altered, spell
from notesgen.pack.layout.score.technique import fretted, written

NOTATION, TAB = 1, 2  # the staves
DIVISIONS = 2  # of a quarter note: an eighth lasts one
BEAMED = 4  # eighths under one beam
RESTS = ((4, "half"), (2, "quarter"), (1, "eighth"))  # by length in eighths
ACCIDENTALS = {-2: "flat-flat", -1: "flat", 0: "natural", 1: "sharp", 2: "double-sharp"}


def staff_notes(bar: Bar) -> Iterator[Element]:
    """The bar on the staff, with the accidentals that it needs."""
    shown: dict[tuple[str, int], int] = {}
    for at, (event, neck) in enumerate(zip(bar.links, bar.necks, strict=True)):
        for n, link in enumerate(event):
            spelled = _spelled(link, neck)
            yield element(
                "note",
                element("chord") if n else None,
                _pitch(spelled),
                *_eighth(NOTATION),
                _accidental(spelled, neck, shown),
                _notehead(link),
                element("staff", NOTATION),
                None if n else _beam(at, len(bar.events)),
                written(link),
            )
    yield from _rests(bar, NOTATION)


def tab_notes(bar: Bar) -> Iterator[Element]:
    """The bar in the tab: the same pitches, each with its string, its fret and how it is played."""
    for event, neck in zip(bar.links, bar.necks, strict=True):
        for n, link in enumerate(event):
            yield element(
                "note",
                element("chord") if n else None,
                _pitch(_spelled(link, neck)),
                *_eighth(TAB),
                element("stem", "none"),
                _notehead(link),
                element("staff", TAB),
                fretted(link),
                element("play", element("mute", "palm")) if "palm-mute" in link.stroke.marks else None,
            )
    yield from _rests(bar, TAB)


def _spelled(link: Link, neck: Neck) -> Spelled | None:
    pitch = neck.pitch(link.stroke.string, link.stroke.fret)
    return None if pitch is None else spell(pitch, neck.signature)


def _pitch(spelled: Spelled | None) -> Element:
    """The pitch; a place that is on no neck has none."""
    if spelled is None:
        return element("unpitched")
    alter = element("alter", spelled.alter) if spelled.alter else None
    return element("pitch", element("step", spelled.step), alter, element("octave", spelled.octave))


def _eighth(staff: int) -> tuple[Element, ...]:
    return element("duration", 1), element("voice", staff), element("type", "eighth")


def _accidental(spelled: Spelled | None, neck: Neck, shown: dict[tuple[str, int], int]) -> Element | None:
    """The sign before the note, where neither the key nor the bar so far says it. `shown` is kept up."""
    if spelled is None:
        return None
    place = spelled.step, spelled.octave
    if spelled.alter == shown.get(place, altered(spelled.step, neck.signature.fifths)):
        return None
    shown[place] = spelled.alter
    return element("accidental", ACCIDENTALS[spelled.alter])


def _notehead(link: Link) -> Element | None:
    if link.stroke.fret == "x":
        return element("notehead", "x")
    return element("notehead", "diamond", filled="no") if link.stroke.how == "harmonic" else None


def _beam(at: int, events: int) -> Element | None:
    """Groups of four from the start of the bar; a note alone has a flag."""
    first = at - at % BEAMED
    last = min(first + BEAMED, events) - 1
    if first == last:
        return None
    return element("beam", "begin" if at == first else "end" if at == last else "continue", number=1)


def _rests(bar: Bar, staff: int) -> Iterator[Element]:
    """Silence to the end of the bar in the longest rests that keep to the beats; the tab shows none."""
    at = len(bar.events)
    while at < bar.eighths:
        length, name = next((length, name) for length, name in RESTS if at % length == 0)
        yield element(
            "note",
            element("rest"),
            element("duration", length),
            element("voice", staff),
            element("type", name),
            element("staff", staff),
            **({"print_object": "no"} if staff == TAB else {}),
        )
        at += length
