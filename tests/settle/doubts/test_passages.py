"""Which notes go into one query."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.evidence import Doubt
from notesgen.rehearsal.run import hear
from notesgen.settle.assign import Assigned
from notesgen.settle.doubts.passages import Doubtful, passages
from notesgen.settle.step import Step, Voice
from notesgen.settle.trust.clues import Clues

EVENT = hear("7 on the G").lesson.events[0]


def told(*notes: tuple[int, float, float], seconds: float = 1.0) -> list[Doubtful]:
    """Notes as (sentence, doubt about the note, about the string), so many seconds apart."""
    return [
        Doubtful(
            index,
            replace(EVENT, id=f"e{index}", start=index * seconds, end=index * seconds),
            Assigned(Step((Voice(7),), index, index + 1, sentence, 1), (3,), 0.1, ((2,),)),
            Clues(),
            Doubt(note, string),
        )
        for index, (sentence, note, string) in enumerate(notes)
    ]


def asked(notes: list[Doubtful], chance: float = 0.25) -> list[list[int]]:
    return [[note.index for note in passage.notes] for passage in passages(notes, chance)]


def test_sure_notes_are_no_part_of_it() -> None:
    assert asked(told((0, 0.01, 0.0), (0, 0.5, 0.0), (0, 0.01, 0.0))) == [[1]]


def test_doubts_of_one_breath_add_up() -> None:
    assert asked(told((0, 0.1, 0.0), (0, 0.1, 0.0), (0, 0.1, 0.0))) == [[0, 1, 2]]
    assert asked(told((0, 0.1, 0.0), (0, 0.1, 0.0))) == []


def test_two_sentences_told_at_once_are_one_question() -> None:
    assert asked(told((0, 0.5, 0.0), (1, 0.5, 0.0))) == [[0, 1]]
    assert asked(told((0, 0.5, 0.0), (1, 0.5, 0.0), seconds=20)) == [[0], [1]]


def test_a_string_and_a_note_in_doubt_are_two_questions() -> None:
    assert asked(told((0, 0.5, 0.0), (1, 0.0, 0.5))) == [[0], [1]]
    string, note = passages(told((0, 0.0, 0.5), (1, 0.5, 0.0)), 0.25)
    assert (string.by_string, note.by_string) == (True, False)


def test_the_chance_decides() -> None:
    notes = told((0, 0.2, 0.0))
    assert (asked(notes, 0.45), asked(notes, 0.25), asked(notes, 0.12)) == ([], [], [[0]])
