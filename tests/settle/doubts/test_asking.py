"""A slur has one string: it is known by that of its first note, and a query moves all of it."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from notesgen.lesson.evidence import Doubt
from notesgen.rehearsal.run import hear
from notesgen.settle.assign import Assigned
from notesgen.settle.doubts.asking import note_doubts
from notesgen.settle.doubts.passages import Doubtful, strings_said
from notesgen.settle.doubts.wording import Wording
from notesgen.settle.trust.odds import fitted

CHANCE = 0.25

SAID = [
    ("9 on the G, pull off to 7", [True, True]),
    ("9 on the G, then 7", [True, False]),
    ("play fret 9, pull off to 7", [False, False]),
    ("on the G, 9, slide to 12, slide back to 9", [True, True, True]),
    ("9 on the G, then 7, hammer on 9", [True, False, False]),
]


def told(heard: str, doubts: list[float]) -> list[Doubtful]:
    """The notes of a talk, with these doubts about their strings."""
    drafted = hear(heard).drafted.heard
    return [
        replace(note, event=replace(note.event, id=f"e{at}"), doubt=Doubt(0.0, doubt))
        for at, (note, doubt) in enumerate(zip(drafted, doubts, strict=True))
    ]


@pytest.mark.parametrize(("heard", "said"), SAID)
def test_a_slurred_note_has_the_string_that_was_said_for_the_one_before(heard: str, said: list[bool]) -> None:
    notes: list[Assigned] = [note.one for note in hear(heard).drafted.heard]
    assert strings_said(notes) == said


@pytest.mark.parametrize("doubts", [[0.5, 0.0, 0.0], [0.0, 0.5, 0.0], [0.5, 0.5, 0.0]])
def test_another_string_takes_the_whole_slur(doubts: list[float]) -> None:
    notes = told("play fret 9, pull off to 7, then 5", doubts)
    (asked,) = note_doubts(notes, CHANCE, fitted().note, Wording(("E", "B", "G", "D", "A", "E")))
    moved = [[(change.event, change.notes) for change in option.change] for option in asked.options[1:3]]
    assert [[event for event, _ in option] for option in moved] == [["e0", "e1"]] * 2
    assert all(len({note.string for _, notes in option for note in notes or ()}) == 1 for option in moved)
