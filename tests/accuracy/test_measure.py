"""The measures against small examples worked out by hand."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import Event, Facts, Flag, How, Key, Lesson, Note, Phrase, Source
from tests.accuracy.align import align, difference
from tests.accuracy.draft import draft_notes
from tests.accuracy.figures import Figures, total
from tests.accuracy.gold import Gold, GoldNote
from tests.accuracy.measure import measure, midi

STANDARD = ("E4", "B3", "G3", "D3", "A2", "E2")


def gold_note(place: str, how: str = "pick", doubt: str = "", time: float = 10.0) -> GoldNote:
    """`place` is "string/fret"."""
    string, fret = (int(part) for part in place.split("/"))
    return GoldNote(
        time=time,
        string=string,
        fret=fret,
        how=how,
        bend=2.0 if how == "bend" else None,
        to=None,
        marks=frozenset({"vibrato"} if how == "bend" else ()),
        together=False,
        doubt=doubt,
    )


def event(number: int, place: str, how: How = "pick", time: float = 10.0, bend: float | None = None) -> Event:
    string, fret = (int(part) for part in place.split("/"))
    return Event(f"e{number}", time, time + 1, "p1", (Note(string, fret),), how=how, bend=bend)


def query(start: float, *events: str, decided: str | None = None) -> Flag:
    return Flag("f1", "fret-unsure", "query", start, start + 1, events, "", "", decided=decided)


def figures(gold: list[GoldNote], events: list[Event], flags: tuple[Flag, ...] = ()) -> Figures:
    facts = Facts("A lesson", "guitar", STANDARD, key=Key("E", "minor"))
    lesson = Lesson(source=Source("a.vtt"), facts=facts, events=tuple(events), flags=flags)
    return measure("a", lesson, Gold(STANDARD, 0, "E natural minor", tuple(gold)))


def test_a_perfect_draft_is_perfect() -> None:
    got = figures(
        [gold_note("3/5"), gold_note("3/7", "hammer-on")], [event(1, "3/5"), event(2, "3/7", "hammer-on")]
    )
    assert (got.note_f1, got.pitch_f1, got.how, got.detail, got.silent) == (1, 1, 1, 1, 0)
    assert (got.facts.tuning, got.facts.capo, got.facts.key) == (True, True, True)


def test_one_of_three_wrong_gives_two_thirds() -> None:
    gold = [gold_note("3/5"), gold_note("3/7"), gold_note("3/5")]
    got = figures(gold, [event(1, "3/5"), event(2, "3/8"), event(3, "3/5")])
    assert got.note_f1 == pytest.approx(2 / 3)
    assert got.silent == 1
    assert got.silent_rate == pytest.approx(1 / 3)


def test_the_same_pitch_on_another_string_counts_for_pitch_alone() -> None:
    got = figures([gold_note("3/5")], [event(1, "4/10")])
    assert (got.note_f1, got.pitch_f1) == (0, 1)


def test_a_missing_note_lowers_recall_and_a_surplus_note_precision() -> None:
    missing = figures([gold_note("3/5"), gold_note("2/8")], [event(1, "3/5")])
    assert (missing.precision, missing.recall) == (1, 0.5)
    surplus = figures([gold_note("3/5")], [event(1, "3/5"), event(2, "2/8")])
    assert (surplus.precision, surplus.recall) == (0.5, 1)


@pytest.mark.parametrize(
    ("flags", "silent"),
    [
        ((), 1),
        ((query(500.0, "e1"),), 0),  # names the event, wherever it stands
        ((query(10.0),), 1),  # near, but the wrong note is there to be named
        ((query(10.0, "e1", decided="keep"),), 1),  # answered: no longer open
    ],
)
def test_a_wrong_note_is_silent_unless_a_query_names_its_event(flags: tuple[Flag, ...], silent: int) -> None:
    assert figures([gold_note("3/5")], [event(1, "3/6")], flags).silent == silent


@pytest.mark.parametrize(("start", "silent"), [(21.9, 0), (22.1, 1)])
def test_a_missing_note_is_silent_unless_a_query_stands_within_twelve_seconds(
    start: float, silent: int
) -> None:
    assert figures([gold_note("3/5", time=10.0)], [], (query(start),)).silent == silent


def test_details_are_the_bend_and_the_marks() -> None:
    whole = figures([gold_note("3/7", "bend")], [event(1, "3/7", "bend", bend=2.0)])
    assert (whole.details, whole.details_right) == (2, 1)  # the vibrato is missing
    half = figures([gold_note("3/7", "bend")], [event(1, "3/7", "bend", bend=1.0)])
    assert (half.details, half.details_right) == (2, 0)


@pytest.mark.parametrize(
    ("doubt", "place", "flags", "passed"),
    [
        ("self-corrected", "3/5", (), 1),
        ("self-corrected", "3/6", (query(10.0, "e1"),), 0),
        ("misspoken said=3/6", "3/5", (), 0),
        ("misspoken said=3/6", "3/6", (query(10.0, "e1"),), 1),
        ("ambiguous-string", "3/5", (), 1),
        ("ambiguous-string", "3/6", (), 0),
        ("ambiguous-string", "3/6", (query(10.0, "e1"),), 1),
    ],
)
def test_traps(doubt: str, place: str, flags: tuple[Flag, ...], passed: int) -> None:
    got = figures([gold_note("3/5", doubt=doubt)], [event(1, place)], flags)
    assert got.trap_counts == {doubt.split()[0]: (1, passed)}


def test_a_query_near_no_doubt_and_no_error_is_idle() -> None:
    got = figures([gold_note("3/5")], [event(1, "3/5")], (query(10.0, "e1"),))
    assert (got.flags, got.idle, got.flags_per_100) == (1, 1, 100)


def test_a_total_is_one_long_lesson() -> None:
    right = figures([gold_note("3/5")] * 3, [event(n, "3/5") for n in range(3)])
    wrong = figures([gold_note("3/5")], [event(1, "3/6")])
    both = total([right, wrong])
    assert (both.gold, both.note_f1, both.silent) == (4, 0.75, 1)


def test_alignment_prefers_a_half_right_pair_to_two_gaps() -> None:
    gold = [gold_note("3/5"), gold_note("3/7")]
    drafted = draft_notes(_lesson([event(1, "3/5"), event(2, "3/8")]))
    assert align(gold, drafted, difference) == [(0, 0), (1, 1)]
    assert align(gold, drafted[1:], difference) == [(0, None), (1, 0)]
    assert align([], drafted, difference) == [(None, 0), (None, 1)]


def test_notes_come_in_the_order_of_the_phrases() -> None:
    events = [event(1, "3/5"), event(2, "3/6"), event(3, "3/7")]
    lesson = _lesson(events, (Phrase("p1", "", 0, 1, ("e3", "e1")),))
    assert [note.event for note in draft_notes(lesson)] == ["e3", "e1", "e2"]


@pytest.mark.parametrize(("name", "number"), [("C4", 60), ("A4", 69), ("E2", 40), ("Eb3", 51), ("F#3", 54)])
def test_midi_numbers(name: str, number: int) -> None:
    assert midi(name) == number


def _lesson(events: list[Event], phrases: tuple[Phrase, ...] = ()) -> Lesson:
    facts = Facts("A lesson", "guitar", STANDARD)
    return Lesson(source=Source("a.vtt"), facts=facts, phrases=phrases, events=tuple(events))
