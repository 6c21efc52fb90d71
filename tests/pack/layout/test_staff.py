"""How events are written on the strings, case by case."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import Event, Facts, Fret, How, Lesson, Mark, Note, Repeat, Source
from notesgen.pack.layout.sheet import lay_out
from notesgen.pack.layout.staff import systems

STANDARD = ("E4", "B3", "G3", "D3", "A2", "E2")


def event(
    number: int,
    *places: tuple[int, Fret],
    how: How = "pick",
    bend: float | None = None,
    to: int | None = None,
    marks: tuple[Mark, ...] = (),
) -> Event:
    notes = tuple(Note(string, fret) for string, fret in places)
    return Event(f"e{number}", 1.0, 2.0, "", notes, how=how, bend=bend, to=to, marks=marks)


def drawn(*events: Event, repeats: tuple[Repeat, ...] = (), width: int = 80) -> list[str]:
    """All lines of the first system."""
    facts = Facts("A lesson", "guitar", STANDARD)
    sheet = lay_out(Lesson(source=Source("a.vtt"), facts=facts, events=events, repeats=repeats))
    return list(systems(sheet.passages[0], sheet, width)[0].lines)


def third(*events: Event) -> str:
    """What stands on the G string between its bars."""
    return drawn(*events)[-4].removeprefix("G|--").removesuffix("--|")


@pytest.mark.parametrize(
    ("written", "events"),
    [
        ("5--7", [event(1, (3, 5)), event(2, (3, 7))]),
        ("5h7p5", [event(1, (3, 5)), event(2, (3, 7), how="hammer-on"), event(3, (3, 5), how="pull-off")]),
        ("3/8\\3", [event(1, (3, 3)), event(2, (3, 8), how="slide"), event(3, (3, 3), how="slide")]),
        ("7b9r7", [event(1, (3, 7), how="bend", bend=2.0), event(2, (3, 7), how="release")]),
        ("7pb8r7", [event(1, (3, 7), how="pre-bend", bend=1.0), event(2, (3, 7), how="release")]),
        ("8b(1/4)~", [event(1, (3, 8), how="bend", bend=0.5, marks=("vibrato",))]),
        ("8b(5/4)", [event(1, (3, 8), how="bend", bend=2.5)]),
        ("8b", [event(1, (3, 8), how="bend")]),
        ("7tr9--7tr", [event(1, (3, 7), how="trill", to=9), event(2, (3, 7), how="trill")]),
        ("t12p7", [event(1, (3, 12), how="tap"), event(2, (3, 7), how="pull-off")]),
        ("<12>--x", [event(1, (3, 12), how="harmonic"), event(2, (3, "x"))]),
        ("/10--12\\", [event(1, (3, 10), marks=("slide-in",)), event(2, (3, 12), marks=("slide-out",))]),
        ("h7", [event(1, (3, 7), how="hammer-on")]),
    ],
)
def test_signs(written: str, events: list[Event]) -> None:
    assert third(*events) == written


def test_a_release_after_another_string_stands_apart() -> None:
    lines = drawn(event(1, (3, 7), how="bend", bend=2.0), event(2, (2, 8)), event(3, (3, 7), how="release"))
    assert lines[1:3] == ["B|-------8------|", "G|--7b9-----r7--|"]


def test_notes_struck_together_stand_in_one_column_though_their_frets_differ_in_width() -> None:
    lines = drawn(event(1, (3, 9), (1, 10)), event(2, (3, 7)))
    assert (lines[0], lines[2]) == ("e|--10-----|", "G|--9---7--|")


def test_double_stops_slide_together() -> None:
    lines = drawn(event(1, (3, 9), (2, 10)), event(2, (3, 11), (2, 12), how="slide"))
    assert lines[1:3] == ["B|--10/12--|", "G|---9/11--|"]


def test_a_note_struck_anew_beside_a_hammer_on_keeps_its_distance() -> None:
    second = Event("e2", 1.0, 2.0, "", (Note(3, 7, how="hammer-on"), Note(2, 5)))
    lines = drawn(event(1, (3, 5), (2, 5)), second)
    assert lines[1:3] == ["B|--5-5--|", "G|--5h7--|"]


def test_a_repeat_has_its_bars_on_all_strings_and_its_count_above() -> None:
    lines = drawn(event(1, (6, 0)), event(2, (6, 3)), event(3, (6, 5)), repeats=(Repeat("e2", "e2", 4),))
    assert lines[0] == "              x4"
    assert lines[1] == "e|-----|:-----:|-----|"
    assert lines[6] == "E|--0--|:--3--:|--5--|"


def test_a_span_reaches_from_its_first_to_its_last_note() -> None:
    muted = [event(n, (6, 0), marks=("palm-mute",)) for n in range(4)]
    assert drawn(*muted, event(9, (5, 2)))[0] == "    PM-------|"
    assert drawn(muted[0], event(9, (5, 2)))[0] == "    PM"


def test_lines_are_wrapped_between_groups() -> None:
    facts = Facts("A lesson", "guitar", STANDARD)
    group = [event(1, (3, 5)), event(2, (3, 7), how="hammer-on"), event(3, (3, 5), how="pull-off")]
    events = (*group, *(event(n, (3, 9)) for n in (4, 5)))
    sheet = lay_out(Lesson(source=Source("a.vtt"), facts=facts, events=events))
    made = [system.strings[2] for system in systems(sheet.passages[0], sheet, 15)]
    assert made == ["G|--5h7p5--9--|", "G|--9--|"]
