"""When events begin."""

from __future__ import annotations

import pytest

from notesgen.lesson.model import Event, Note, Played
from notesgen.pack.layout.sounding.beats import Step, first_beat, steps


def events(told: str) -> list[Event]:
    """ "- 1.5 x": nothing known, on beat 1.5, raked."""
    return [
        Event(
            f"e{n}",
            1.0,
            2.0,
            "p1",
            (Note(3, 5),),
            marks=("rake",) if word == "x" else (),
            played=None if word in "-x" else Played(1.0, 2.0, beat=float(word)),
        )
        for n, word in enumerate(told.split())
    ]


@pytest.mark.parametrize(
    ("told", "first", "lengths"),
    [
        ("", 0.0, []),
        ("- - -", 0.0, [0.5, 0.5, 0.5]),
        ("0 1 1.75", 0.0, [1.0, 0.75, 0.5]),
        ("2.75 4", 0.75, [1.25, 0.5]),
        ("0 - 2 3", 0.0, [0.5, 0.5, 1.0, 0.5]),
        ("1 1 0", 0.0, [0.5, 0.5, 0.5]),  # at once, then backwards: not believed
        ("- x x -", 0.0, [0.25, 0.125, 0.125, 0.5]),
        ("x -", 0.75, [0.25, 0.5]),
    ],
)
def test_cases(told: str, first: float, lengths: list[float]) -> None:
    assert first_beat(events(told)) == first
    assert [step.beats for step in steps(events(told))] == lengths


def test_what_a_recording_told_is_known() -> None:
    assert [step.known for step in steps(events("0 1 - 3"))] == [True, False, False, True]
    assert steps(events("- -")) == [Step(0.5, False)] * 2
