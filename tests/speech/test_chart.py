"""Wordings matched against the chart."""

from __future__ import annotations

import pytest

from notesgen.grammar.template import parse
from notesgen.speech.chart import AS_WORD, Chart, Edge, Match
from notesgen.speech.matching import LIST_LIMIT, matches
from notesgen.speech.numbers import number_edges
from tests.speech.talk import cut


def chart(text: str) -> Chart:
    made = Chart(cut(text))
    for edge in number_edges(made.items):
        made.add(edge)
    return made


def found(text: str, wording: str, start: int = 0) -> set[tuple[str, tuple[object, ...]]]:
    """The words that each match takes, with the values in its slots."""
    made = chart(text)
    return {
        (made.said(match.start, match.end), tuple(edge.value for edge in match.slots))
        for match in matches(made, parse(wording), start)
    }


CASES = [
    ("play it", "play it", {("play it", ())}),
    ("play that", "play it", set()),
    ("play", "play it", set()),
    ("play it", "play [it]", {("play it", ()), ("play", ())}),
    ("pick it", "(play|pick) it", {("pick it", ())}),
    ("play 7", "play {number}", {("play 7", (7,))}),
    ("play 7", "play <number>", {("play 7", ())}),
    ("twenty two", "{number}", {("twenty two", (22,))}),
    ("7 9 10", "{number+}", {("7", (7,)), ("7 9", (7, 9)), ("7 9 10", (7, 9, 10))}),
    ("7 and 9", "{number+}", {("7", (7,)), ("7 and 9", (7, 9))}),
    ("7, 9 on", "{number+} on", {("7 9 on", (7, 9))}),
    ("7 then 9", "{number+}", {("7", (7,))}),
    # a comma may stand inside, the end of a sentence may not
    ("play, 7", "play {number}", {("play 7", (7,))}),
    ("play. 7", "play {number}", set()),
    ("7. 9", "{number+}", {("7", (7,))}),
    ("7 and. 9", "{number+}", {("7", (7,))}),
    ("play (4) 7", "play {number}", set()),
    # nothing but optional parts matches nothing
    ("play", "[it]", set()),
]


@pytest.mark.parametrize(("text", "wording", "expected"), CASES)
def test_matches(text: str, wording: str, expected: set[tuple[str, tuple[object, ...]]]) -> None:
    assert found(text, wording) == expected


def test_a_wording_may_begin_anywhere() -> None:
    assert found("so. play 7", "play {number}", start=1) == {("play 7", (7,))}


def test_slots_are_named() -> None:
    (match,) = matches(chart("from 5 to 7"), parse("from {number:from} to {number:to}"), 0)
    assert [(edge.name, edge.value) for edge in match.slots] == [("from", 5), ("to", 7)]


def test_misheard_words_cost_and_are_told() -> None:
    made = Chart(cut("band it ate"))
    made.add(Edge(0, 1, AS_WORD + "bend", None, 0.8, heard=('"band" for "bend"',)))
    made.add(Edge(2, 3, "number", 8, 0.3, heard=('"ate" for "8"',)))
    (match,) = matches(made, parse("bend it {number}"), 0)
    assert match.cost == pytest.approx(1.1)
    assert match.heard == ('"band" for "bend"', '"ate" for "8"')


def test_several_words_may_be_a_mishearing_of_one() -> None:
    made = Chart(cut("hammered on to 7"))
    made.add(Edge(0, 2, AS_WORD + "hammer", None, 0.4))
    assert [match.end for match in matches(made, parse("hammer to"), 0)] == [3]


def test_a_word_as_it_stands_may_begin_a_longer_mishearing_of_itself() -> None:
    made = Chart(cut("hammer and to 7"))
    made.add(Edge(0, 2, AS_WORD + "hammer", None, 0.4))
    assert [match.end for match in matches(made, parse("hammer [to]"), 0)] == [1, 3, 2]


def test_the_cheaper_of_two_like_readings_is_kept() -> None:
    made = Chart(cut("ate"))
    for cost in (0.5, 0.5, 0.9):
        made.add(Edge(0, 1, "number", 8, cost))
    assert [edge.cost for edge in made.edges(0, "number")] == [0.5]
    made.add(Edge(0, 1, "number", 2, 0.9))
    assert [edge.value for edge in made.edges(0, "number")] == [8, 2]


def test_nothing_begins_behind_the_end() -> None:
    assert chart("7").edges(1, "number") == []


def test_lists_have_a_longest_length() -> None:
    longest = max(matches(chart("7 " * (LIST_LIMIT + 4)), parse("{number+}"), 0), key=_length)
    assert _length(longest) == LIST_LIMIT


def _length(match: Match) -> int:
    return len(match.slots)
