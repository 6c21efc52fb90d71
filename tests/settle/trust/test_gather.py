"""The clues of the demo's notes: numbers from 0 to 1, and there where one expects them."""

from __future__ import annotations

from pathlib import Path

from notesgen.captions.source import load_captions
from notesgen.pipeline import Given, rooms
from notesgen.rehearsal.run import hear
from notesgen.settle.trust.clues import Clues

DEMO = Path(__file__).parents[3] / "fixtures" / "demo" / "harbour.vtt"


def clues(heard: str, given: Given | None = None) -> tuple[Clues, ...]:
    return tuple(note.clues for note in hear(heard, given or Given()).drafted.heard)


def test_each_clue_is_a_share() -> None:
    drafted = rooms(load_captions(str(DEMO))).drafted
    assert len(drafted.heard) >= len(drafted.lesson.events) == len(drafted.evidence.doubts)
    assert all(0 <= value <= 1 for note in drafted.heard for value in note.clues.values())


def test_a_string_said_is_sure_and_one_carried_on_is_less_so() -> None:
    said, carried = clues("7 on the G, then 9")
    assert (said.string.said, said.string.close) == (1, 0)
    assert carried.string.said == 0 < carried.string.close <= carried.string.weakest


def test_notes_outside_the_key_are_seen_unless_announced() -> None:
    key = Given(key="C major")
    assert [one.music.outside for one in clues("6 on the G, then 5 on the G", key)] == [1, 0]
    (announced,) = clues("6 on the G, that's a passing note", key)
    assert (announced.music.outside, announced.music.announced) == (0, 1)


def test_words_that_no_idiom_reads_are_counted() -> None:
    plain, odd = clues("7 on the G. My uncle wobbles 9 on the G")
    assert plain.around.unread < odd.around.unread
    assert plain.around.odd_company < odd.around.odd_company
