"""The weights are there for every question, and the log-odds add up."""

from __future__ import annotations

from math import isclose, log

import pytest

from notesgen.lesson.evidence import Doubt
from notesgen.settle.trust.ask import Ask
from notesgen.settle.trust.clues import Clues, InMusic, OnString
from notesgen.settle.trust.odds import Weights, fitted


def test_log_odds_add_up() -> None:
    weights = Weights(log(1 / 9), Clues(music=InMusic(outside=log(9)), string=OnString(close=log(4))))
    assert isclose(weights.chance(Clues()), 0.1)
    assert isclose(weights.chance(Clues(music=InMusic(outside=1))), 0.5)
    assert isclose(weights.chance(Clues(music=InMusic(outside=1), string=OnString(close=1))), 0.8)


def test_either_error_makes_a_note_wrong() -> None:
    assert isclose(Doubt(note=0.5, string=0.2).wrong, 0.6)


@pytest.mark.parametrize("clue", ["music.outside", "telling.pointing", "around.unread", "string.close"])
def test_what_speaks_against_a_note_does_so_in_the_weights(clue: str) -> None:
    assert dict(fitted().note.clues.named())[clue] > 0


@pytest.mark.parametrize("clue", ["string.named", "telling.slurred", "tellings.agreed"])
def test_what_speaks_for_a_note_does_so_in_the_weights(clue: str) -> None:
    assert dict(fitted().note.clues.named())[clue] < 0


def test_a_string_said_is_surer_than_one_left_open() -> None:
    said, left_open = Clues(string=OnString(said=1, named=1)), Clues(string=OnString(close=1, weakest=1))
    assert fitted().string.chance(said) < fitted().string.chance(left_open)


def test_who_wants_more_questions_is_asked_at_less_doubt() -> None:
    assert 0 < Ask.MORE.chance < Ask.NORMAL.chance < Ask.LESS.chance < 1
