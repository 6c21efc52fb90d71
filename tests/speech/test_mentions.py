"""Mentions: numbers by their size, letters, misheard words, and the values of phrases."""

from __future__ import annotations

import pytest

from notesgen.grammar.load import load_grammar
from notesgen.grammar.model import Grammar
from notesgen.speech.chart import Chart, Match, Value
from notesgen.speech.mentions import ARTICLE, BEYOND, PHRASE_COMMA, Mentions, commas
from notesgen.speech.pronoun import PRONOUN
from tests.speech.grammar import small
from tests.speech.talk import cut


@pytest.fixture(scope="module")
def grammar(tmp_path_factory: pytest.TempPathFactory) -> Grammar:
    return small(tmp_path_factory.mktemp("grammar"))


def chart(grammar: Grammar, text: str) -> Chart:
    return Mentions(grammar).chart(cut(text))


def readings(made: Chart, symbol: str) -> list[tuple[str, Value, float]]:
    """The words read as the symbol, with value and cost, in order."""
    return [
        (made.said(edge.start, edge.end), edge.value, round(edge.cost, 3))
        for at in range(len(made.items))
        for edge in made.edges(at, symbol)
    ]


CASES = [
    # numbers by their size
    ("7", "fret_number", [("7", 7, 0)]),
    ("24", "fret_number", [("24", 24, 0)]),
    ("25", "fret_number", []),
    ("flat 7", "degree_number", [("7", 7, 0)]),
    ("sharp eleven", "degree_number", [("eleven", 11, 0)]),
    ("flat 12", "degree_number", []),
    ("the ones", "number", []),
    ("one", "fret_number", [("one", 1, PRONOUN)]),
    ("the one", "fret_number", [("one", 1, 2 * PRONOUN)]),
    ("1", "fret_number", [("1", 1, 0)]),
    ("2.5", "fret_number", []),
    ("6", "string_number", [("6", 6, 0)]),
    ("7", "string_number", [("7", 7, BEYOND)]),
    ("10", "string_number", []),
    ("0", "string_number", []),
    ("39", "big", []),
    ("40", "big", [("40", 40, 0)]),
    ("second", "fret_ordinal", []),
    ("third", "fret_ordinal", [("third", 3, 0)]),
    ("25th", "fret_ordinal", []),
    ("25th", "ordinal", [("25th", 25, 0)]),
    # letters
    ("G", "letter", [("g", "G", 0)]),
    ("h", "letter", []),
    ("play a", "letter", [("a", "A", ARTICLE)]),
    ("the A", "letter", [("a", "A", 0)]),
    ("A note", "letter", [("a", "A", ARTICLE)]),  # a capital at the start says nothing
    # misheard
    ("ate", "number", [("ate", 8, 0.3)]),
    ("ate", "fret_number", [("ate", 8, 0.3)]),
    ("gee", "letter", [("gee", "G", 0.4)]),
    # phrases
    ("the G string", "string", [("the g string", "G", 0), ("the g", "G", 0)]),
    ("the third string", "string", [("the third string", "#3", 0)]),
    ("the gee string", "string", [("the gee string", "G", 0.4), ("the gee", "G", 0.4)]),
    ("the, G", "string", [("the g", "G", PHRASE_COMMA)]),
    ("the. G", "string", []),
    ("fret 7", "fret", [("fret 7", 7, 0), ("7", 7, 0)]),
    ("open", "nothing", [("open", 0, 0)]),
    ("open", "fret", [("open", None, 0)]),  # the value of a phrase named in <> does not matter
    ("the G and the third string", "pair", [("the g and the third string", "G+#3", 0)]),
    ("seventh", "dear", [("seventh", 7, 0.7)]),
    ("a full step", "amount", [("a full step", 2, 0)]),
    ("up and down", "fixed", [("up and down", None, 0)]),
]


@pytest.mark.parametrize(("text", "symbol", "expected"), CASES)
def test_readings(grammar: Grammar, text: str, symbol: str, expected: list[tuple[str, Value, float]]) -> None:
    assert readings(chart(grammar, text), symbol) == expected


def test_a_misheard_word_is_one_more_word_at_its_place(grammar: Grammar) -> None:
    assert chart(grammar, "band").words[0] == ("band", "bend")


def test_what_was_misheard_is_told(grammar: Grammar) -> None:
    (edge,) = chart(grammar, "ate").edges(0, "number")
    assert edge.heard == ('"ate" for "8"',)


@pytest.mark.parametrize(
    ("text", "number"), [("7 9 10", 0), ("7, 9, 10", 2), ("7, and 9, then 10", 0), (", 7 9", 0)]
)
def test_commas_before_a_link_do_not_count(grammar: Grammar, text: str, number: int) -> None:
    made = chart(grammar, text)
    assert commas(made, Match(0, len(made.items), ()), frozenset({"and", "then"})) == number


ENGLISH = load_grammar()
NAMED = [
    ("the low E string", "string", "low E"),
    ("the high E", "string", "high E"),
    ("the fourth string", "string", "#4"),
    ("string three", "string", "#3"),
    ("the next string over", "string", "next"),
    ("the same string", "string", "same"),
    ("one string thicker", "string", "thicker"),
    ("the D and the G strings", "string_pair", "D+G"),
    ("the top two strings", "string_pair", "top 2"),
    ("the bottom three strings", "string_triple", "bottom 3"),
    ("a whole step", "amount", 2),
    ("half a step", "amount", 1),
    ("a quarter tone", "amount", 0.5),
    ("a step and a half", "amount", 3),
    ("twice", "times", 2),
    ("five times", "times", 5),
    ("3 or 4 times", "times", "3 or 4"),
    ("the seventh fret", "sure_fret", 7),
    ("drop D", "tuning_name", "drop D"),
    ("minor pentatonic", "mode", "minor pentatonic"),
    ("B flat", "key_name", "Bb"),
]


@pytest.mark.parametrize(("text", "symbol", "value"), NAMED)
def test_english_phrases(text: str, symbol: str, value: Value) -> None:
    made = Mentions(ENGLISH).chart(cut(text))
    whole = [edge for edge in made.edges(0, symbol) if edge.end == len(made.items)]
    cheapest = min(whole, key=lambda edge: edge.cost)
    assert (cheapest.value, cheapest.cost) == (value, 0)
