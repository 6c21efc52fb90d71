"""lesson.mid, read back by an independent reader (music21.midi).

Facts of the outside: note numbers, pitch bend sensitivity by RPN 0, 14 bits of wheel (MIDI 1.0 Detailed
Specification); channel 10 kept for drums (General MIDI Level 1); texts and markers (Standard MIDI Files 1.0).
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from msgspec.structs import replace
from music21.pitch import Pitch

from notesgen.lesson.model import Event, Facts, Lesson, Note, Phrase, Repeat, Source
from notesgen.pack.midi import render
from tests.pack import bass
from tests.pack.lessons import lessons
from tests.pack.midi_reader import Heard, corners, read, readable, turns
from tests.pack.rich import FACTS, LESSON

STANDARD = ("E4", "B3", "G3", "D3", "A2", "E2")


def lesson(*events: Event, tuning: tuple[str, ...] = STANDARD, repeats: tuple[Repeat, ...] = ()) -> Lesson:
    facts = Facts("A lesson", "guitar", tuning, tempo=60.0)
    return Lesson(source=Source("a.vtt"), facts=facts, events=events, repeats=repeats)


def event(number: int, string: int, fret: int, **told: object) -> Event:
    return replace(Event(f"e{number}", 1.0, 2.0, "", (Note(string, fret),)), **told)


def heard(made: Lesson) -> list[Heard]:
    data = render(made)
    assert data is not None
    return read(data)


def notes(made: Lesson, channel: int) -> list[int]:
    return [turn.note for turn in turns(heard(made), channel)]


def wheel(made: Lesson, channel: int) -> list[list[float]]:
    """For each note, where the wheel stands when it begins and at each turning point after that."""
    return [[at for _, at in corners(turn.wheel)] for turn in turns(heard(made), channel)]


@settings(deadline=None, max_examples=40)
@given(lessons())
def test_every_plucked_pitch_sounds_on_its_string_in_order(made: Lesson) -> None:
    plain = tuple(
        replace(one, how="pick", notes=tuple(Note(note.string, note.fret) for note in one.notes))
        for one in made.events
    )
    data = render(replace(made, events=plain, repeats=()))
    for string, name in enumerate(STANDARD, start=1):
        # Pitch names to numbers by music21; a dead note has the number of its open string.
        opened = Pitch(name).midi
        expected = [
            opened + (0 if note.fret == "x" else note.fret)
            for one in plain
            for note in one.notes
            if note.string == string
        ]
        assert [turn.note for turn in turns(read(data) if data else [], string)] == expected


@settings(deadline=None, max_examples=40)
@given(lessons())
def test_the_file_is_sound_whatever_the_lesson(made: Lesson) -> None:
    data = render(made)
    assert data == render(made)
    if data is None:
        assert not made.events
        return
    found = read(data)
    for channel in {one.channel for one in found if one.kind == "NOTE_ON"}:
        assert all(turn.end > turn.start for turn in turns(found, channel))
    for track in {one.track for one in found}:
        ticks = [one.tick for one in found if one.track == track]
        assert ticks == sorted(ticks)
    assert all(0 <= int(one.data[0]) < 1 << 14 for one in found if one.kind == "PITCH_BEND")
    assert 10 not in {one.channel for one in found if one.kind == "NOTE_ON"}


@pytest.mark.parametrize(
    ("events", "sounding", "moves"),
    [
        ([event(1, 3, 7, how="bend", bend=2.0)], [62], [[0.0, 2.0]]),
        ([event(1, 3, 7, how="bend", bend=0.5)], [62], [[0.0, 0.5]]),
        ([event(1, 3, 7, how="pre-bend", bend=2.0)], [62], [[2.0]]),
        ([event(1, 3, 7, how="bend", bend=2.0), event(2, 3, 7, how="release")], [62], [[0.0, 2.0, 0.0]]),
        ([event(1, 3, 7, how="pre-bend", bend=1.0), event(2, 3, 7, how="release")], [62], [[1.0, 0.0]]),
        ([event(1, 3, 5), event(2, 3, 7, how="hammer-on")], [60, 62], [[0.0], [0.0]]),
        ([event(1, 3, 5), event(2, 3, 9, how="slide")], [60, 64], [[0.0, 4.0], [0.0]]),
        ([event(1, 3, 9), event(2, 3, 5, how="slide")], [64, 60], [[0.0, -4.0], [0.0]]),
        ([event(1, 3, 0), event(2, 3, 24, how="slide")], [55, 79], [[0.0, 24.0], [0.0]]),
        ([event(1, 3, 9, marks=("slide-in",))], [64], [[-2.0, 0.0]]),
        ([event(1, 3, 9, marks=("slide-out",))], [64], [[0.0, -4.0]]),
        ([event(1, 3, 9, marks=("vibrato",))], [64], [[0.0, *[0.35, 0.0] * 5]]),
        ([event(1, 3, 5, how="trill", to=7)], [60, 62] * 4 + [60], [[0.0]] * 9),
        ([event(1, 3, 12, how="harmonic")], [67], [[0.0]]),
        # Bent, then let go of without a release: the wheel is back when the lower note begins.
        (
            [event(1, 3, 7, how="bend", bend=2.0), event(2, 3, 5, how="pull-off")],
            [62, 60],
            [[0.0, 2.0], [0.0]],
        ),
    ],
)
def test_how_the_pitch_moves(events: list[Event], sounding: list[int], moves: list[list[float]]) -> None:
    made = lesson(*events)
    assert notes(made, 3) == sounding
    assert wheel(made, 3) == moves


def test_a_bend_moves_no_other_string() -> None:
    both = event(1, 2, 10, notes=(Note(2, 10), Note(3, 12, how="bend", bend=2.0)))
    assert wheel(lesson(both), 2) == [[0.0]]
    assert wheel(lesson(both), 3) == [[0.0, 2.0]]


def test_both_notes_of_a_slur_sound_for_a_moment_and_those_of_two_strokes_do_not() -> None:
    first, hammered, struck = turns(
        heard(lesson(event(1, 3, 5), event(2, 3, 7, how="hammer-on"), event(3, 3, 5))), 3
    )
    assert hammered.start < first.end < hammered.end
    assert hammered.end == struck.start


def test_repeats_are_played_out() -> None:
    made = lesson(*(event(n, 3, n) for n in range(1, 6)), repeats=(Repeat("e2", "e3", 3),))
    assert [note - 55 for note in notes(made, 3)] == [1, 2, 3, 2, 3, 2, 3, 4, 5]


def test_each_string_has_its_channel_and_none_is_that_of_the_drums() -> None:
    tuning = ("E4", "B3", "G3", "D3", "A2", "E2", "B1", "F#1", "C#1", "G#0")
    struck = Event("e1", 1.0, 2.0, "", tuple(Note(string, 1) for string in range(1, 11)))
    found = heard(lesson(struck, tuning=tuning))
    channels = [one.channel for one in found if one.kind == "NOTE_ON"]
    assert channels == [1, 2, 3, 4, 5, 6, 7, 8, 9, 11]
    assert [t.note for t in turns(found, 11)] == [Pitch("A0").midi]


def test_every_phrase_has_a_marker_and_the_file_says_what_was_not_said() -> None:
    found = heard(LESSON)
    assert [one.data for one in found if one.kind == "MARKER"] == [p.title for p in LESSON.phrases]
    texts = [one.data for one in found if one.kind == "TEXT_EVENT"]
    assert "The rhythm was not said: even eighth notes stand in for it." in texts
    assert not any("tempo" in str(text) for text in texts)
    untimed = heard(replace(LESSON, facts=replace(FACTS, tempo=None)))
    texts = [one.data for one in untimed if one.kind == "TEXT_EVENT"]
    assert "The tempo was not said: 80 beats a minute stand in for it." in texts


def test_phrases_do_not_run_into_each_other() -> None:
    starts = [one.tick for one in heard(LESSON) if one.kind == "MARKER"]
    ends = [turn for channel in range(1, 7) for turn in turns(heard(LESSON), channel)]
    for start in starts[1:]:
        assert max(turn.end for turn in ends if turn.start < start) <= start - 480


@pytest.mark.parametrize("title", ["Été à la mer", "夜の港", "гавань\nночью", "♪ 🎸", ""])
def test_titles_in_any_script_come_through(title: str) -> None:
    made = replace(lesson(event(1, 3, 5)), facts=Facts(title, "guitar", STANDARD))
    made = replace(made, phrases=(Phrase("p1", title, 0.0, 1.0, ("e1",)),))
    flat = " ".join(title.split())
    found = heard(made)
    assert found[0].data == (flat or "Guitar lesson")
    assert [one.data for one in found if one.kind == "MARKER"] == [flat or "Further notes"]


def test_a_lesson_in_which_nothing_sounds_has_no_file() -> None:
    assert render(lesson()) is None
    assert render(lesson(event(1, 9, 5))) is None, "there is no ninth string"


@pytest.mark.parametrize(("name", "made"), [("rich", LESSON), ("bass", bass.LESSON)])
def test_as_reviewed(name: str, made: Lesson, golden: Callable[[Path, bytes], None]) -> None:
    golden(Path(__file__).parent / "golden_midi" / f"{name}.txt", readable(heard(made)).encode())
