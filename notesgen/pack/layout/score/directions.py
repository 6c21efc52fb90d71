"""What stands above the notes: the phrase's title, the tempo, marks that last, the boxes as diagrams."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from notesgen.lesson.model import Facts, Mark, Position
from notesgen.music.pitch import midi
from notesgen.music.tuning import standard
from notesgen.pack.layout.facts import tuning_text
from notesgen.pack.layout.score.bars import Bar
from notesgen.pack.layout.score.build import element
from notesgen.pack.layout.score.necks import Neck
from notesgen.pack.layout.score.spelling import spell

RHYTHM = "Rhythm not notated: even values"
SPANS: tuple[tuple[Mark, str], ...] = (("palm-mute", "P.M."), ("let-ring", "let ring"), ("rake", "rake"))
STAFF = 1
LEAST_FRETS = 4  # that a diagram shows


def opening(facts: Facts, neck: Neck) -> Iterator[Element]:
    """What is said once, above the first bar: tempo, tuning, capo, and that the rhythm is not known."""
    if facts.tempo:
        beat = element("metronome", element("beat-unit", "quarter"), element("per-minute", facts.tempo))
        yield _direction(beat, element("sound", tempo=f"{facts.tempo:g}"))
    told = list(_strings(facts, neck))
    if told:
        yield _words(". ".join(told))
    retuned = list(_retuned(neck.tuning, facts.instrument))
    if retuned:
        yield _direction(element("scordatura", *retuned))
    yield _words(RHYTHM)


def title(told: str) -> Element:
    """The title of a phrase as a rehearsal mark."""
    return _direction(element("rehearsal", told, enclosure="none"))


def starts(bar: Bar, at: int, before: Bar | None) -> Iterator[Element]:
    """The words and dashed lines of marks that begin with the event `at` of the bar."""
    marks, former = _marks(bar, at), _marks(bar, at - 1) if at else _last_marks(before)
    for number, (mark, words) in enumerate(SPANS, start=1):
        if mark in marks and mark not in former:
            yield element(
                "direction",
                element("direction-type", element("words", words, font_style="italic")),
                element("direction-type", element("dashes", type_="start", number=number)),
                element("staff", STAFF),
                placement="above",
            )


def stops(bar: Bar, at: int, after: Bar | None) -> Iterator[Element]:
    """The ends of dashed lines behind the event `at` of the bar."""
    marks = _marks(bar, at)
    following = _marks(bar, at + 1) if at + 1 < len(bar.events) else _first_marks(after)
    for number, (mark, _) in enumerate(SPANS, start=1):
        if mark in marks and mark not in following:
            yield _direction(element("dashes", type_="stop", number=number))


def box(position: Position, neck: Neck) -> Element | None:
    """A declared position as a diagram over its lowest note; None where it has no frets."""
    places = [(int(string), fret) for string, frets in position.frets.items() for fret in frets]
    pitches = [pitch for place in places if (pitch := neck.pitch(*place)) is not None]
    if not pitches:
        return None
    lowest = spell(min(pitches), neck.signature)
    fingered = [fret for _, fret in places if fret]
    first = min(fingered, default=1)
    alter = element("root-alter", lowest.alter) if lowest.alter else None
    return element(
        "harmony",
        element("root", element("root-step", lowest.step, text=""), alter),
        element("kind", "none", text=position.label or "position"),
        element(
            "frame",
            element("frame-strings", max(len(neck.tuning), *(string for string, _ in places))),
            element("frame-frets", max(LEAST_FRETS, max(fingered, default=1) - first + 1)),
            element("first-fret", first),
            *(
                element("frame-note", element("string", string), element("fret", fret))
                for string, fret in sorted(places, reverse=True)
            ),
        ),
        element("staff", STAFF),
    )


def _strings(facts: Facts, neck: Neck) -> Iterator[str]:
    """Tuning and capo, where they are not the usual ones."""
    if any(_retuned(neck.tuning, facts.instrument)):
        yield f"Tuning: {tuning_text(neck.tuning, facts.instrument)}"
    if neck.capo:
        yield f"Capo at fret {neck.capo}, written as the shapes that are played"


def _words(told: str) -> Element:
    return _direction(element("words", told))


def _direction(kind: Element, sound: Element | None = None) -> Element:
    return element(
        "direction", element("direction-type", kind), element("staff", STAFF), sound, placement="above"
    )


def _retuned(tuning: tuple[str, ...], instrument: str) -> Iterator[Element]:
    """Each string that is tuned otherwise than usual."""
    try:
        usual = [midi(pitch) for pitch in standard(instrument)]
        sounding = [midi(pitch) for pitch in tuning]
    except ValueError:
        return
    for string in range(len(sounding), 0, -1):
        if string > len(usual) or sounding[string - 1] != usual[string - 1]:
            yield element("accord", *tuned(tuning[string - 1]), string=string)


def tuned(pitch: str) -> Iterator[Element]:
    """The open string "Eb4" as a tuning."""
    number = midi(pitch)
    letter, sign = pitch[0].upper(), pitch[1:].rstrip("-0123456789")
    alter = {"": 0, "#": 1, "♯": 1, "##": 2, "b": -1, "♭": -1, "bb": -2}[sign]
    yield element("tuning-step", letter)
    if alter:
        yield element("tuning-alter", alter)
    yield element("tuning-octave", (number - alter) // 12 - 1)


def _marks(bar: Bar, at: int) -> tuple[Mark, ...]:
    return bar.events[at].marks


def _last_marks(bar: Bar | None) -> tuple[Mark, ...]:
    return bar.events[-1].marks if bar else ()


def _first_marks(bar: Bar | None) -> tuple[Mark, ...]:
    return bar.events[0].marks if bar else ()
