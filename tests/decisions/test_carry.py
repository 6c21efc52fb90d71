"""Decisions find their notes again in captions that were exported anew."""

from __future__ import annotations

from collections import Counter
from difflib import SequenceMatcher
from functools import cache

import pytest
from msgspec.structs import replace

from notesgen.decisions.carry import WINDOW, Placed, place
from notesgen.decisions.making import Maker
from notesgen.decisions.model import Decision
from notesgen.decisions.settled import checked, settled
from notesgen.lesson.model import Event, Facts, Lesson, Note, Source
from notesgen.pipeline import rooms
from tests.decisions.packs import all_answers, base, captions, drafted
from tests.decisions.reexported import reexported

LESSONS = ("melody-bm", "bluesrock-c", "capo-c", "twang-a")
AGAIN: dict[str, dict[str, float]] = {
    "other cue breaks": {"seed": 1},
    "moved": {"seed": 2, "moved": 63.0, "words": 0.3},
    "numbers as words": {"seed": 3, "moved": -2.0, "spelled": True},
}


@cache
def exported_anew(name: str, how: str) -> Lesson:
    """The lesson of other captions of the same recording."""
    return checked(rooms(reexported(captions(name), **AGAIN[how])).drafted)  # type: ignore[arg-type]


def the_same(old: Lesson, new: Lesson, moved: float) -> dict[str, str]:
    """Events of one draft in the other, by laying out the frets side by side: an opinion from elsewhere
    (Ratcliff and Obershelp's matching, of Python's difflib), where the times, `moved` by so many seconds,
    do not speak against it."""
    frets = [[tuple(note.fret for note in event.notes) for event in each.events] for each in (old, new)]
    blocks = SequenceMatcher(None, *frets, autojunk=False).get_matching_blocks()
    pairs = ((old.events[a + n], new.events[b + n]) for a, b, size in blocks for n in range(size))
    return {was.id: now.id for was, now in pairs if abs(now.start - was.start - moved) <= WINDOW}


def events_of(decision: Decision, lesson: Lesson) -> list[str]:
    """The events that a decision was made on."""
    return [event or "" for event in place(lesson, [decision])[0].events]


@pytest.mark.parametrize("how", AGAIN)
@pytest.mark.parametrize("name", LESSONS)
def test_each_decision_lands_on_its_notes_or_is_listed(name: str, how: str) -> None:
    old, new = base(name), exported_anew(name, how)
    made, same = list(all_answers(old)), the_same(old, new, AGAIN[how].get("moved", 0.0))
    placed = place(new, made)
    assert [one.decision for one in placed] == made, "none is dropped"
    for one in placed:
        before = events_of(one.decision, old)
        landed = {(was, now) for was, now in zip(before, one.events, strict=True) if now and was in same}
        assert landed <= set(same.items())
        survivors = [was for was in before if was in same]
        assert one.fits or 2 * len(survivors) < len(before), (one.decision.words, survivors)


@pytest.mark.parametrize("how", AGAIN)
def test_nearly_all_decisions_find_their_notes(how: str) -> None:
    placed = [
        one for name in LESSONS for one in place(exported_anew(name, how), list(all_answers(base(name))))
    ]
    assert sum(one.fits for one in placed) >= 0.9 * len(placed)


@pytest.mark.parametrize("how", AGAIN)
@pytest.mark.parametrize("name", LESSONS)
def test_no_two_notes_land_on_one(name: str, how: str) -> None:
    """Decisions on every single note."""
    old = base(name)
    maker = Maker(old)
    placed = place(exported_anew(name, how), [maker.drop([event.id]) for event in old.events])
    landed = Counter(event for one in placed for event in one.events if event)
    assert max(landed.values()) == 1
    assert len(landed) >= 0.8 * len(old.events)


def test_the_same_captions_place_every_note() -> None:
    for name in LESSONS:
        maker = Maker(base(name))
        made = [maker.drop([event.id]) for event in base(name).events]
        placed = place(base(name), made)
        assert [one.events for one in placed] == [(event.id,) for event in base(name).events]


def test_a_passage_said_three_times_keeps_its_answers_apart_when_all_is_moved() -> None:
    """The nearest in time would be the wrong one: the order tells."""
    events = tuple(
        Event(f"e{n}", 10.0 * n, 10.0 * n + 2, "p1", (Note(2, 5),), quote="5 on the B") for n in range(1, 4)
    )
    old = Lesson(source=Source("a.vtt"), facts=Facts("A", "guitar", ("E4",)), events=events)
    new = replace(old, events=tuple(replace(event, start=event.start + 9.0) for event in events))
    made = [Maker(old).drop([event.id]) for event in events]
    assert [one.events for one in place(new, made)] == [("e1",), ("e2",), ("e3",)]


def test_a_note_that_is_gone_is_listed_and_not_put_elsewhere() -> None:
    name = "melody-bm"
    lesson, maker = base(name), Maker(base(name))
    gone = lesson.events[20]
    left = replace(
        drafted(name).drafted.lesson, events=tuple(e for e in lesson.events if e.start != gone.start)
    )
    made = [maker.drop([event.id]) for event in lesson.events if event.start == gone.start]
    assert settled(replace(drafted(name).drafted, lesson=left), made).unplaced == tuple(made)


def test_a_decision_without_notes_fits_nothing() -> None:
    bare = Decision(answer="a", at=0.0, words="5")
    assert place(base("melody-bm"), [bare]) == (Placed(bare, ()),)
    assert not Placed(bare, ()).fits
