"""What is the same throughout a phrase is asked once, and answered for all of its notes."""

from __future__ import annotations

from notesgen.checks.alike import asked_once
from notesgen.lesson.model import Change, Flag, Option

PHRASES = {"e1": "p1", "e2": "p1", "e3": "p2"}


def flag(event: str, start: float, label: str = "a pull-off") -> Flag:
    options = (Option("keep the hammer-on"), Option(label, (Change(event, how="pull-off"),)))
    return Flag("", "wrong-way", "query", start, start + 1, (event,), "8 to 7", "It must rise.", options)


def test_the_same_in_one_phrase_is_one_question() -> None:
    (one,) = asked_once([flag("e1", 1.0), flag("e2", 5.0)], PHRASES)
    assert (one.events, one.start, one.end) == (("e1", "e2"), 1.0, 6.0)
    assert one.options[1].change == (Change("e1", how="pull-off"), Change("e2", how="pull-off"))


def test_other_phrases_and_other_choices_are_asked_apart() -> None:
    flags = (flag("e1", 1.0), flag("e3", 5.0), flag("e2", 7.0, "a picked note"))
    assert asked_once(flags, PHRASES) == flags
