"""Whether a bare number stands where a fret may stand."""

from __future__ import annotations

import pytest

from notesgen.grammar.model import WordLists
from notesgen.speech.chart import Chart, Edge, Match
from notesgen.speech.numbers import number_edges
from notesgen.speech.surroundings import ODD_NEIGHBOUR, Surroundings
from tests.speech.talk import cut

LISTS = WordLists(before_fret=("then", "the"), after_fret=("and", "on"), guitar_words=("fret", "bend"))

CASES = [
    ("alone", "7", 0, 1, 0),
    ("good company", "then 7 and", 1, 2, 0),
    ("odd before", "since 7 and", 1, 2, 1),
    ("odd after", "then 7 people", 1, 2, 1),
    ("odd on both sides", "since 7 people", 1, 2, 2),
    ("a comma keeps odd words away", "since, 7, people", 1, 2, 0),
    ("a full stop does too", "since. 7. people.", 1, 2, 0),
    ("another number is good company", "5 7 9", 1, 2, 0),
    ("guitar words are good on both sides", "bend 7 fret", 1, 2, 0),
    ("a word of the other side is odd", "on 7 then", 1, 2, 2),
    ("the wording's own words are company enough", "since fret 7 people", 1, 3, 1),
]


@pytest.mark.parametrize(("why", "text", "start", "end", "sides"), CASES)
def test_company(why: str, text: str, start: int, end: int, sides: int) -> None:
    chart = Chart(cut(text))
    for edge in number_edges(chart.items):
        chart.add(edge)
    fret = Edge(end - 1, end, "fret", 7, name="fret")
    cost = Surroundings(chart, LISTS).cost(Match(start, end, (fret,)), "note")
    assert cost == ODD_NEIGHBOUR * sides, why


@pytest.mark.parametrize("name", ["count", "string", "tempo"])
def test_only_frets_need_company(name: str) -> None:
    chart = Chart(cut("since 7 people"))
    chart.add(Edge(1, 2, "number", 7))
    assert Surroundings(chart, LISTS).cost(Match(1, 2, (Edge(1, 2, "number", 7, name=name),)), "note") == 0
