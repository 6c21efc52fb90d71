"""Phrases renamed, split and joined: what holds when their notes go, and when they are split anew."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.decisions.making import Maker
from notesgen.decisions.model import Added, Decision
from notesgen.decisions.settled import Applied, settled
from tests.decisions.packs import base, drafted

MAKER = Maker(base("harbour"))
SECOND = ("e7", "e8", "e9", "e10", "e11", "e12", "e13", "e14")
TITLES = ["First phrase", "Second phrase", "Last phrase"]


def made(*decisions: Decision) -> Applied:
    return settled(drafted("harbour").drafted, decisions)


def titles(applied: Applied) -> list[str]:
    return [phrase.title for phrase in applied.lesson.phrases]


def firsts(applied: Applied) -> list[str]:
    return [phrase.events[0] for phrase in applied.lesson.phrases]


def test_the_phrases_of_the_draft() -> None:
    assert next(phrase.events for phrase in base("harbour").phrases if phrase.id == "p2") == SECOND
    assert titles(made()) == TITLES


def test_a_title_stays_when_the_first_note_goes() -> None:
    applied = made(MAKER.rename("e7", "Chorus lick"), MAKER.drop(["e7", "e8"]))
    assert (titles(applied)[1], firsts(applied)[1], applied.unplaced) == ("Chorus lick", "e9", ())


def test_a_phrase_begins_at_the_next_note_when_its_first_goes() -> None:
    applied = made(MAKER.split("e9"), MAKER.rename("e9", "Tail"), MAKER.drop(["e9"]))
    assert titles(applied) == ["First phrase", "Second phrase", "Tail", "Last phrase"]
    assert firsts(applied)[2] == "e10"


def test_a_note_written_beside_the_one_that_goes_comes_first() -> None:
    beside = MAKER.insert("e9", before=(Added(notes="2/8"),), after=(Added(notes="2/9"),))
    assert firsts(made(beside, MAKER.split("e9"), MAKER.drop(["e9"])))[2] == "e9a1"


def test_what_is_said_of_a_phrase_that_is_gone_is_told() -> None:
    on_it: Sequence[Decision] = (MAKER.split("e9"), MAKER.rename("e9", "Tail"))
    applied = made(*on_it, MAKER.drop(SECOND[2:]))
    assert (titles(applied), applied.unplaced) == (TITLES, tuple(on_it))


def test_a_phrase_split_anew_begins_afresh() -> None:
    """A second split takes the place of the first, so what was said in between comes before it."""
    again = made(MAKER.rename("e9", "Tail"), MAKER.join("e9"), MAKER.split("e9"))
    assert titles(again) == ["First phrase", "Second phrase", "Second phrase, continued", "Last phrase"]
    assert again.unplaced == ()
    joined = made(MAKER.rename("e9", "Tail"), MAKER.split("e9"), MAKER.join("e9"))
    assert titles(joined) == TITLES


def test_a_phrase_of_the_draft_keeps_its_title_when_it_is_split_off_again() -> None:
    again = made(MAKER.rename("e7", "Chorus lick"), MAKER.join("e7"), MAKER.split("e7"))
    assert titles(again) == ["First phrase", "Chorus lick", "Last phrase"]
