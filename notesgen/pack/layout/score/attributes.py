"""Clefs, key, staves and tuning: what a bar says before its notes where something of it is new."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from notesgen.pack.layout.score.bars import Bar
from notesgen.pack.layout.score.build import element
from notesgen.pack.layout.score.directions import tuned
from notesgen.pack.layout.score.necks import Neck
from notesgen.pack.layout.score.notes import DIVISIONS, NOTATION, TAB
from notesgen.pack.layout.score.spelling import Signature

# Letters that an interval of so many semitones spans.
DIATONIC = (0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6)
OCTAVE, LETTERS = 12, 7


def attributes(bar: Bar, before: Bar | None, instrument: str, strings: int) -> Element | None:
    """What changes at the bar; None where nothing does. `strings` are the lines of the tab."""
    now, former = bar.neck, before.neck if before else None
    held: list[Element] = []
    if former is None:
        held.append(element("divisions", DIVISIONS))
    if former is None or former.signature.fifths != now.signature.fifths:
        held.append(_key(now.signature))
    if former is None:
        held += [*_time(), element("staves", 2), *_clefs(instrument)]
    if former is None or (former.tuning, former.capo) != (now.tuning, now.capo):
        held.append(_strings(now, strings))
    if now.shift != (former.shift if former else 0):
        held.append(_transpose(now.shift))
    return element("attributes", *held) if held else None


def _key(signature: Signature) -> Element:
    return element("key", element("fifths", signature.fifths), element("mode", signature.mode))


def _time() -> Iterator[Element]:
    """4/4, which the tab need not show again."""
    for staff, shown in ((NOTATION, "yes"), (TAB, "no")):
        yield element("time", element("beats", 4), element("beat-type", 4), number=staff, print_object=shown)


def _clefs(instrument: str) -> Iterator[Element]:
    """Guitars and basses are written an octave above their sound, which the clef says; a ukulele is not."""
    sign, line = ("F", 4) if "bass" in instrument else ("G", 2)
    octave = None if instrument == "ukulele" else element("clef-octave-change", -1)
    yield element("clef", element("sign", sign), element("line", line), octave, number=NOTATION)
    yield element("clef", element("sign", "TAB"), element("line", 5), number=TAB)


def _strings(neck: Neck, strings: int) -> Element:
    """The lines of the tab, the lowest string first, as MusicXML counts them."""
    tunings = (
        element("staff-tuning", *tuned(pitch), line=line)
        for line, pitch in enumerate(reversed(neck.tuning), start=1 + max(0, strings - len(neck.tuning)))
    )
    return element(
        "staff-details",
        element("staff-lines", strings),
        *(tunings if None not in neck.open else ()),
        element("capo", neck.capo) if neck.capo else None,
        number=TAB,
    )


def _transpose(shift: int) -> Element:
    """How the sound lies from what is written, in semitones."""
    octaves, rest = divmod(abs(shift), OCTAVE)
    letters = octaves * LETTERS + DIATONIC[rest]
    return element(
        "transpose", element("diatonic", letters if shift > 0 else -letters), element("chromatic", shift)
    )
