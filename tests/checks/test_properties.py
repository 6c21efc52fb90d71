"""What holds for every check on any lesson, sensible or not."""

from __future__ import annotations

import msgspec
from hypothesis import given
from hypothesis import strategies as st

from notesgen.checks.run import checks
from notesgen.lesson.evidence import Counted, Evidence, LikelyKey, Spelled
from notesgen.lesson.model import Event, FactChange, Facts, Key, Lesson, Note, Played, Position, Source
from notesgen.music.scale import MODES
from notesgen.music.tuning import standard
from tests.lesson.lessons import HOWS, LESSONS, SEMITONES, several

CHECKS = checks()
IDS = [f"e{number}" for number in range(12)]
FRETS = st.integers(-1, 30) | st.just("x")
TARGETS = st.none() | st.integers(0, 26)
NOTES = st.builds(Note, st.integers(0, 8), FRETS, st.none() | HOWS, SEMITONES, TARGETS)
KEYS = st.builds(Key, st.sampled_from(["A", "Bb", "F#", "H"]), st.sampled_from([*MODES, "odd"]))
CHANGES = st.one_of(
    st.builds(FactChange, st.just(30.0), st.just("key"), KEYS, st.just("")),
    st.builds(FactChange, st.just(50.0), st.just("capo"), st.integers(0, 30), st.just("")),
    st.just(FactChange(0.0, "naming", "standard", "")),
    st.just(FactChange(70.0, "tuning", ("E4", "B3"), "")),
)
BOXES = st.dictionaries(st.sampled_from("123456"), several(st.integers(0, 24)), min_size=4)
SOME = st.lists(st.sampled_from(IDS), max_size=6).map(tuple)
PLAYED = st.builds(Played, st.just(1.0), st.just(2.0), st.none() | st.floats(-10, 140))
EVIDENCE = st.builds(
    Evidence,
    *[st.frozensets(st.sampled_from(IDS), max_size=3) for _ in ("outside", "sure")],
    several(st.builds(Counted, st.integers(0, 12), st.just(5.0), st.just("notes"), several(SOME))),
    several(
        st.builds(Spelled, several(st.sampled_from(["A", "Bb", "F#"])), SOME, st.just(5.0), st.just("A"))
    ),
    several(PLAYED),
    st.none() | st.builds(LikelyKey, KEYS, st.floats(0, 1), st.integers(0, 40), st.just(40)),
)


@st.composite
def lessons(draw: st.DrawFn) -> Lesson:
    """Lessons with a real tuning, so that the checks get to work."""
    events = tuple(
        Event(
            name,
            start=10.0 * index,
            end=10.0 * index + 5,
            phrase=draw(st.sampled_from(["p1", "p2"])),
            notes=draw(several(NOTES)),
            how=draw(HOWS),
            bend=draw(SEMITONES),
            to=draw(TARGETS),
            quote=name,
            played=draw(st.none() | PLAYED),
        )
        for index, name in enumerate(IDS[: draw(st.integers(0, len(IDS)))])
    )
    facts = Facts(
        title="",
        instrument=draw(st.sampled_from(["guitar", "kazoo"])),
        tuning=standard("guitar"),
        capo=draw(st.integers(0, 5)),
        key=draw(st.none() | KEYS),
        positions=draw(several(st.builds(Position, st.just(""), st.just(0.0), BOXES, st.just("")))),
        changes=draw(several(CHANGES)),
    )
    return Lesson(source=Source("any.vtt"), facts=facts, events=events)


@given(LESSONS | lessons(), EVIDENCE)
def test_a_check_never_raises_and_never_changes_the_lesson(lesson: Lesson, evidence: Evidence) -> None:
    before = msgspec.json.encode(lesson)
    for check in CHECKS.values():
        first, second = tuple(check(lesson, evidence)), tuple(check(lesson, evidence))
        assert first == second
    assert msgspec.json.encode(lesson) == before


@given(lessons(), EVIDENCE)
def test_every_flag_is_whole(lesson: Lesson, evidence: Evidence) -> None:
    events = {event.id: event for event in lesson.events}
    for name, check in CHECKS.items():
        for flag in check(lesson, evidence):
            assert flag.id == "" and flag.decided is None
            if flag.events:
                assert flag.quote == events[flag.events[0]].quote
                assert flag.start == events[flag.events[0]].start
            assert flag.message[0].isupper() and flag.message.endswith("."), name
            changes = [change for option in flag.options for change in option.change]
            assert all(change.bend is None or isinstance(change.bend, float) for change in changes)
            labels = [option.label for option in flag.options]
            assert len(set(labels)) == len(labels), name
            assert [bool(option.change) for option in flag.options] == [
                index > 0 and bool(flag.events) for index in range(len(flag.options))
            ]
            assert len(flag.options) >= 2 or flag.level == "note"
            assert bool(flag.options) == (flag.level == "query")
