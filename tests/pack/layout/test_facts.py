"""Facts, strings and times in a teacher's words."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import FactChange, Facts, Key
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.facts import fact_lines
from notesgen.pack.layout.strings import string_labels, string_name, tuning_name

STANDARD = ("E4", "B3", "G3", "D3", "A2", "E2")
HALF_DOWN = ("Eb4", "Bb3", "Gb3", "Db3", "Ab2", "Eb2")
DROP_D = ("E4", "B3", "G3", "D3", "A2", "D2")
DADGAD = ("D4", "A3", "G3", "D3", "A2", "D2")


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(0, "0:00"), (59.999, "0:59"), (217.0, "3:37"), (3600, "1:00:00"), (3725, "1:02:05")],
)
def test_clock(seconds: float, text: str) -> None:
    assert clock(seconds) == text


@pytest.mark.parametrize(
    ("tuning", "labels"),
    [
        (STANDARD, ["e", "B", "G", "D", "A", "E"]),
        (HALF_DOWN, ["eb", "Bb", "Gb", "Db", "Ab", "Eb"]),
        (DADGAD, ["d", "A", "G", "D", "A", "D"]),
        (("D4", "A3", "F#3", "D3", "A2", "D2"), ["d ", "A ", "F#", "D ", "A ", "D "]),
    ],
)
def test_labels(tuning: tuple[str, ...], labels: list[str]) -> None:
    assert string_labels(tuning) == labels


def test_a_string_beyond_the_tuning_is_labelled_by_its_number() -> None:
    assert string_labels(("E4", "B3"), 3) == ["e", "B", "3"]


@pytest.mark.parametrize(
    ("tuning", "string", "name"),
    [
        (STANDARD, 1, "high E string"),
        (STANDARD, 3, "G string"),
        (STANDARD, 6, "low E string"),
        (DROP_D, 1, "E string"),
        (DROP_D, 4, "D string"),
        (DROP_D, 6, "low D string"),
        (DADGAD, 2, "high A string"),
        (DADGAD, 4, "middle D string"),
        (STANDARD, 7, "string 7"),
    ],
)
def test_names(tuning: tuple[str, ...], string: int, name: str) -> None:
    assert string_name(tuning, string) == name


@pytest.mark.parametrize(
    ("tuning", "name"),
    [
        (STANDARD, "standard"),
        (DROP_D, "drop D"),
        (HALF_DOWN, "half step down"),
        (DADGAD, "DADGAD"),
        (("E4", "B3", "G3", "D3", "A2", "C2"), None),
    ],
)
def test_tunings(tuning: tuple[str, ...], name: str | None) -> None:
    assert tuning_name(tuning) == name


def test_tunings_belong_to_an_instrument() -> None:
    assert tuning_name(("G2", "D2", "A1", "E1"), "bass") == "standard"
    assert tuning_name(STANDARD, "hurdy-gurdy") is None


def test_another_instrument_is_named() -> None:
    lines = fact_lines(Facts("", "bass", ("G2", "D2", "A1", "D1")))
    assert lines[:2] == [("Instrument", "bass"), ("Tuning", "D A D G, low to high (drop D)")]


def test_facts_that_were_not_said_are_left_out_or_marked() -> None:
    assert fact_lines(Facts("", "guitar", STANDARD, origin={"tuning": "assumed"})) == [
        ("Tuning", "E A D G B E, low to high (standard) (assumed: it was not said)"),
        ("Capo", "none"),
    ]


def test_changes_stand_with_their_time() -> None:
    changes = (
        FactChange(402.0, "key", Key("A", "minor"), ""),
        FactChange(410.0, "tuning", DROP_D, ""),
        FactChange(420.0, "capo", 2, ""),
        FactChange(430.0, "tempo", 92.0, ""),
    )
    facts = Facts("", "guitar", STANDARD, 0, Key("Bb", "major"), 88.0, changes=changes)
    assert fact_lines(facts)[2:] == [
        ("Key", "Bb major"),
        ("Tempo", "88 beats a minute"),
        ("Key from 6:42", "A minor"),
        ("Tuning from 6:50", "D A D G B E, low to high (drop D)"),
        ("Capo from 7:00", "fret 2; frets are counted from the capo"),
        ("Tempo from 7:10", "92"),
    ]
