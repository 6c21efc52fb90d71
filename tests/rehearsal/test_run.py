"""Examples tried: right, wrong, known to fail, and with words before them."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from notesgen.errors import InputError
from notesgen.grammar.load import load_grammar
from notesgen.grammar.model import Example, Grammar, Not
from notesgen.rehearsal.run import Result, hear, idle, rehearse, try_example, try_not

GRAMMAR = load_grammar()
IDIOM = next(idiom for idiom in GRAMMAR.idioms if idiom.name == "fret on a string")


def tried(heard: str, *notes: str, before: str = "", known: str = "") -> Result:
    return try_example(IDIOM, Example(heard, notes, before=before, known_failure=known))


def test_an_example_that_is_right() -> None:
    result = tried("7 on the G", "3/7 pick")
    assert (result.passed, result.problem) == (True, "")
    assert (result.got, result.read_by) == (("3/7 pick",), ("fret on a string",))


@pytest.mark.parametrize("notes", [(), ("3/8",), ("3/7", "3/7"), ("2/7",)])
def test_an_example_that_is_wrong(notes: tuple[str, ...]) -> None:
    result = tried("7 on the G", *notes)
    assert (result.passed, result.problem) == (False, "other notes came out")


def test_a_string_that_was_said_is_not_asked_for() -> None:
    assert "did not ask" in tried("7 on the G", "?/7").problem


def test_a_string_that_was_not_said_is_asked_for() -> None:
    assert tried("then fret 5", "?/5").passed


def test_a_known_failure_must_fail() -> None:
    assert tried("7 on the G", "3/8", known="a reason").passed
    assert not tried("7 on the G", "3/7", known="a reason").passed


def test_only_the_notes_after_those_of_before_count() -> None:
    assert tried("then 9 on the G", "3/9", before="7 on the G").passed


def test_a_note_of_before_that_the_words_change_counts() -> None:
    assert tried("bend it up a whole step", "3/7 bend=2", before="7 on the G").passed


def test_gives_passes_over_asides_and_slots_not_named() -> None:
    example = Example("I've had it for 12 years. Then the high E string", gives=("scope string=high E",))
    assert try_example(IDIOM, example).problem == ""
    assert try_example(IDIOM, replace(example, gives=())).problem == "other instructions came out"


def test_an_example_must_expect_something() -> None:
    assert "neither" in try_example(IDIOM, Example("7 on the G")).problem


def test_a_misspelt_example_is_told_with_its_file() -> None:
    with pytest.raises(InputError, match="seven") as raised:
        tried("7 on the G", "3/seven")
    assert raised.value.file == "notes.toml"


def test_a_not_is_wrong_when_the_idiom_takes_the_words() -> None:
    assert try_not(IDIOM, Not("I play guitar", "no fret")).passed
    assert not try_not(IDIOM, Not("7 on the G", "for the test")).passed


def test_an_idiom_that_reads_none_of_its_examples_is_idle() -> None:
    idiom = replace(IDIOM, name="never", examples=(Example("7 on the G", ("3/7",)),), nots=())
    grammar = Grammar("en", (), (idiom, IDIOM), (), GRAMMAR.words)
    assert idle(grammar, list(rehearse(grammar))) == ["never"]


def test_files_can_be_chosen() -> None:
    assert {result.file for result in rehearse(GRAMMAR, {"notes.toml"})} == {"notes.toml"}


@pytest.mark.parametrize("words", ["", "  \n "])
def test_no_words_are_bad_input(words: str) -> None:
    with pytest.raises(InputError):
        hear(words)


def test_line_ends_are_spaces() -> None:
    assert hear("7 on\nthe G").lesson.events[0].notes[0].fret == 7
