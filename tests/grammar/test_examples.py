"""Each example of the grammar, a test of its own; and each idiom must have one."""

from __future__ import annotations

from functools import cache

import pytest

from notesgen.grammar.load import load_grammar
from notesgen.grammar.model import Example, Idiom, Not
from notesgen.rehearsal.run import Result, idle, try_example, try_not

GRAMMAR = load_grammar()
EXAMPLES = [(idiom, example) for idiom in GRAMMAR.idioms for example in idiom.examples]
NOTS = [(idiom, case) for idiom in GRAMMAR.idioms for case in idiom.nots]


def name(pair: tuple[Idiom, Example | Not]) -> str:
    return f"{pair[0].name}: {pair[1].heard}"


def told(result: Result) -> str:
    if not result.problem:
        return f"known to fail ({result.known}), and right now: take known_failure out"
    return f"{result.problem}\nexpected {result.expected}\ngot      {result.got}\nread by  {result.read_by}"


@cache
def tried(at: int) -> Result:
    """What came of an example, by its place: two tests ask, and reading all of them takes minutes."""
    return try_example(*EXAMPLES[at])


@pytest.mark.parametrize("at", range(len(EXAMPLES)), ids=map(name, EXAMPLES))
def test_example(at: int) -> None:
    result = tried(at)
    assert result.passed, told(result)


@pytest.mark.parametrize("pair", NOTS, ids=map(name, NOTS))
def test_not(pair: tuple[Idiom, Not]) -> None:
    result = try_not(*pair)
    assert result.passed, told(result)


def test_every_idiom_has_an_example() -> None:
    assert [idiom.name for idiom in GRAMMAR.idioms if not idiom.examples] == []


def test_every_idiom_reads_some_example_of_its_own() -> None:
    assert idle(GRAMMAR, [tried(at) for at in range(len(EXAMPLES))]) == []


def test_idioms_have_different_names() -> None:
    names = [idiom.name for idiom in GRAMMAR.idioms]
    assert sorted({n for n in names if names.count(n) > 1}) == []
