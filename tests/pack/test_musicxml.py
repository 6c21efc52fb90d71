"""lesson.musicxml: valid by the schema of MusicXML 4.0, and read back by music21 and verovio."""

from __future__ import annotations

import re
import sysconfig
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
import verovio
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from music21 import articulations, chord, converter, harmony, spanner
from xmlschema import XMLSchema

from notesgen.lesson.model import Event, FactChange, Facts, How, Key, Lesson, Note, Phrase, Repeat, Source
from notesgen.music.pitch import midi
from notesgen.pack.layout.strokes import strokes
from notesgen.pack.musicxml import render
from notesgen.pipeline import draft_file
from tests.pack import demo
from tests.pack.lessons import STANDARD, lessons
from tests.pack.rich import FACTS, LESSON

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures" / "lessons"
FEW = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@pytest.fixture(scope="module")
def schema() -> XMLSchema:
    """The W3C's MusicXML 4.0 schema, as the package `musicxml` carries it; nothing is fetched."""
    carried = Path(sysconfig.get_path("purelib")) / "musicxml" / "generate_classes" / "musicxml_4_0.xsd"
    return XMLSchema(str(carried), allow="local")


def drafted(name: str) -> Lesson:
    (captions,) = (path for path in (FIXTURES / name).iterdir() if path.suffix in (".vtt", ".srt", ".txt"))
    return draft_file(str(captions))


def made(lesson: Lesson) -> str:
    score = render(lesson)
    assert score is not None
    return score


def parsed(lesson: Lesson) -> ElementTree.Element:
    return ElementTree.fromstring(made(lesson).encode())


def one_phrase(*events: Event, facts: Facts = FACTS, repeats: tuple[Repeat, ...] = ()) -> Lesson:
    phrase = Phrase("p1", "Riff", 0.0, 9.0, tuple(event.id for event in events))
    return Lesson(source=Source("a.vtt"), facts=facts, phrases=(phrase,), events=events, repeats=repeats)


def struck(*places: tuple[int, int]) -> tuple[Event, ...]:
    return tuple(Event(f"e{n}", n, n + 1, "p1", (Note(*place),)) for n, place in enumerate(places))


def test_the_rich_lesson_and_the_demo_are_valid(schema: XMLSchema) -> None:
    for lesson in (LESSON, demo.lesson()):
        assert [error.reason for error in schema.iter_errors(made(lesson))] == []


@pytest.mark.parametrize("name", ["kettle-uke", "metalcore-dropc", "funk-bass-a"])
def test_drafts_of_other_instruments_and_tunings_are_valid(name: str, schema: XMLSchema) -> None:
    lesson = drafted(name)
    assert [error.reason for error in schema.iter_errors(made(lesson))] == []
    assert read_back(lesson) == expected(lesson)


@FEW
@given(lesson=lessons(), title=st.text(max_size=20))
def test_any_lesson_is_valid(schema: XMLSchema, lesson: Lesson, title: str) -> None:
    titled = replace(lesson, facts=replace(lesson.facts, title=title))
    score = render(titled)
    assert (score is None) == (not lesson.events)
    if score is not None:
        assert [error.reason for error in schema.iter_errors(score)] == []


Place = tuple[int, int | str, int]
"""String, fret ("x" for a dead note), sounding MIDI note number."""


def expected(lesson: Lesson) -> list[list[Place]]:
    """The notes of each event from the lowest up; of two that sound alike, the thicker string first."""
    opened = [midi(name) + lesson.facts.capo for name in lesson.facts.tuning]
    return [
        sorted(
            (
                (s.string, s.fret, opened[s.string - 1] + (0 if s.fret == "x" else s.fret))
                for s in strokes(event)
            ),
            key=lambda place: (place[2], -place[0]),
        )
        for event in lesson.events
    ]


def tab_of(lesson: Lesson) -> Any:
    return converter.parse(made(lesson), format="musicxml").parts[1]


def read_back(lesson: Lesson) -> list[list[Place]]:
    """The same as music21 reads it from the tab, at sounding pitch."""
    tab = tab_of(lesson).toSoundingPitch()
    return [_places(struck) for struck in tab.recurse().notes]


def _places(struck: Any) -> list[Place]:
    """music21 hangs the strings and frets of a chord on the chord, in the order of its notes."""
    held = struck.notes if isinstance(struck, chord.Chord) else (struck,)
    strings = [a.number for a in struck.articulations if type(a) is articulations.StringIndication]
    frets = [a.number for a in struck.articulations if type(a) is articulations.FretIndication]
    return [
        (string, "x" if one.notehead == "x" else fret, one.pitch.midi)
        for one, string, fret in zip(held, strings, frets, strict=True)
    ]


def test_music21_reads_every_string_fret_and_pitch() -> None:
    for lesson in (LESSON, demo.lesson()):
        assert read_back(lesson) == expected(lesson)


@settings(FEW, max_examples=5)
@given(lessons())
def test_music21_reads_any_lesson(lesson: Lesson) -> None:
    if lesson.events:
        assert read_back(lesson) == expected(lesson)


def test_both_staves_hold_the_same_pitches() -> None:
    staff, tab = (_names(part) for part in converter.parse(made(LESSON), format="musicxml").parts)
    assert staff == tab


def _names(part: Any) -> list[list[str]]:
    played = (one for one in part.recurse().notes if not isinstance(one, harmony.ChordSymbol))
    return [[pitch.nameWithOctave for pitch in one.pitches] for one in played]


def test_music21_reads_the_techniques() -> None:
    score = converter.parse(made(LESSON), format="musicxml")
    tab = score.parts[1]
    spanners = [type(one) for one in score.recurse().getElementsByClass(spanner.Spanner)]
    assert spanners.count(articulations.HammerOn) == 2
    assert spanners.count(articulations.PullOff) == 7
    bends = [
        (a.bendAlter.semitones, a.preBend, a.release is not None)
        for struck in tab.recurse().notes
        for a in struck.articulations
        if isinstance(a, articulations.FretBend)
    ]
    assert bends == [
        (2, False, False),
        (-2, False, True),
        (0.5, False, False),
        (2, True, False),
        (-2, False, True),
        (2, False, False),
        (3, False, False),
        (-3, False, True),
        (2, False, False),
    ]
    kinds = [type(a) for struck in tab.recurse().notes for a in struck.articulations]
    assert kinds.count(articulations.FretTap) == 2
    assert kinds.count(articulations.StringHarmonic) == 1


def test_repeats_tell_how_often() -> None:
    bars = [bar for bar in tab_of(LESSON).getElementsByClass("Measure") if bar.rightBarline is not None]
    ends = [bar.rightBarline.times for bar in bars if bar.rightBarline.__class__.__name__ == "Repeat"]
    assert ends == [4, 2]


def test_of_repeats_within_one_another_the_outer_stands() -> None:
    nested = (Repeat("e0", "e3", 2), Repeat("e1", "e2", 3), Repeat("e3", "e4", 4), Repeat("e4", "e1", 5))
    root = parsed(one_phrase(*struck((1, 1), (1, 2), (1, 3), (1, 4), (1, 5)), repeats=nested))
    assert [one.get("times") for one in root.iter("repeat")] == [None, "2"]


def test_the_last_bar_of_a_phrase_is_filled_up() -> None:
    root = parsed(one_phrase(*struck(*[(1, 5)] * 11)))
    lengths = [
        [int(n.findtext("duration", "")) for n in bar.iter("note") if n.findtext("staff") == "1"]
        for bar in root.iter("measure")
    ]
    assert lengths == [[1] * 8, [1, 1, 1, 1, 4]]


def test_a_slur_over_a_bar_line_stays_on_its_staff() -> None:
    hows: list[How] = ["pick"] * 7 + ["pick", "hammer-on"]
    events = (replace(event, how=how) for event, how in zip(struck(*[(1, 5)] * 9), hows, strict=True))
    score = converter.parse(made(one_phrase(*events)), format="musicxml")
    parts = {id(one): part.id for part in score.parts for one in part.recurse().notes}
    slurs = [[parts[id(one)] for one in slur] for slur in score.recurse().getElementsByClass(spanner.Slur)]
    assert sorted(slurs) == [["P1-Staff1", "P1-Staff1"], ["P1-Staff2", "P1-Staff2"]]


def test_it_says_that_the_rhythm_is_not_known() -> None:
    assert "Rhythm not notated: even values" in [words.text for words in parsed(LESSON).iter("words")]


def test_a_capo_is_written_as_shapes_and_told() -> None:
    facts = replace(FACTS, capo=3, tuning=STANDARD)
    root = parsed(one_phrase(*struck((5, 3)), facts=facts))
    assert (root.findtext(".//pitch/step"), root.findtext(".//pitch/octave")) == ("C", "3")
    assert root.findtext(".//staff-details/capo") == "3"
    assert (root.findtext(".//transpose/chromatic"), root.findtext(".//transpose/diatonic")) == ("3", "2")


def test_strings_named_as_usual_in_a_lowered_tuning_are_written_as_usual() -> None:
    low = ("Eb4", "Bb3", "Gb3", "Db3", "Ab2", "Eb2")
    naming = (FactChange(0.0, "naming", "standard", ""),)
    facts = replace(FACTS, capo=0, tuning=low, changes=naming, key=Key("E", "minor"))
    lesson = one_phrase(*struck((6, 0)), facts=facts)
    assert (parsed(lesson).findtext(".//pitch/step"), parsed(lesson).findtext(".//fifths")) == ("E", "1")
    assert read_back(lesson) == [[(6, 0, midi("Eb2"))]]


def test_a_place_off_the_neck_has_no_pitch(schema: XMLSchema) -> None:
    lesson = one_phrase(*struck((1, 105), (8, 2)))
    assert [error.reason for error in schema.iter_errors(made(lesson))] == []
    assert len(list(parsed(lesson).iter("unpitched"))) == 4


def test_accidentals_stand_where_the_bar_needs_them() -> None:
    facts = replace(FACTS, capo=0, tuning=STANDARD, key=Key("G", "major"))
    root = parsed(one_phrase(*struck((1, 2), (1, 1), (1, 1), (1, 2), (4, 4)), facts=facts))
    written = [n for n in root.iter("note") if n.findtext("staff") == "1" and n.find("pitch") is not None]
    assert [n.findtext("accidental") for n in written] == [None, "natural", None, "sharp", None]


def test_a_box_is_a_diagram() -> None:
    frame = parsed(LESSON).find(".//frame")
    assert frame is not None
    places = {(n.findtext("string"), n.findtext("fret")) for n in frame.iter("frame-note")}
    assert places == {(s, str(f)) for s, frets in FACTS.positions[0].frets.items() for f in frets}


def test_verovio_reads_every_string_and_fret() -> None:
    """LGPL engraver, an independent reader: the tab's notes as it understands them, dead ones at 0."""
    toolkit = verovio.toolkit()
    assert toolkit.loadData(made(LESSON))
    found = re.findall(r'tab\.fret="(\d+)" tab\.course="(\d+)"', toolkit.getMEI())
    told = [(s, "0" if f == "x" else str(f)) for event in expected(LESSON) for s, f, _ in event]
    assert sorted((int(string), fret) for fret, string in found) == sorted(told)
    assert "<svg" in toolkit.renderToSVG(1)


def test_a_lesson_without_notes_has_no_score() -> None:
    assert render(replace(LESSON, events=())) is None


def test_the_same_lesson_gives_the_same_bytes() -> None:
    assert made(LESSON) == made(LESSON)
