"""Which wordings can begin where, what they need, and the order of phrases."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.errors import InputError
from notesgen.grammar.index import Index, in_order, required
from notesgen.grammar.load import load_grammar
from notesgen.grammar.model import Grammar, Phrase, Template, WordLists
from notesgen.grammar.template import Choice, Node, Ref, Seq, Slot, Word, leaves, parse
from notesgen.speech.chart import Chart, Edge
from notesgen.speech.matching import Bundle, matches
from tests.speech.talk import cut


def template(text: str) -> Template:
    return Template(text, parse(text), "test.toml", 3)


def index(*wordings: str) -> Index[str]:
    return Index((wording, template(wording)) for wording in wordings)


FIRST = [
    ("play it", {"play"}, set()),
    ("(play|pick up) it", {"play", "pick"}, set()),
    ("[then] play", {"then", "play"}, set()),
    ("[then] [you] {fret}", {"then", "you"}, {"fret"}),
    ("{fret} on", set(), {"fret"}),
    ("<then> play", set(), {"then"}),
    ("({fret}|open) string", {"open"}, {"fret"}),
    ("[[very] low] e", {"very", "low", "e"}, set()),
]


@pytest.mark.parametrize(("wording", "words", "symbols"), FIRST)
def test_what_can_begin_a_wording(wording: str, words: set[str], symbols: set[str]) -> None:
    found = index(wording)
    assert (set(found.by_word), set(found.by_symbol)) == (words, symbols)


def test_candidates_are_given_once() -> None:
    found = index("[then] play", "then {fret}", "{fret} on", "stop")
    chosen = found.candidates(["then", "play"], {"fret": None})
    owners = [owner for at, (owner, _) in enumerate(found.wordings) if chosen >> at & 1]
    assert owners == ["[then] play", "then {fret}", "{fret} on"]
    assert found.candidates(["none"], {}) == 0


@pytest.mark.parametrize("wording", ["[then]", "[then] [play]", "[(a|b)]", "(a|[b])"])
def test_a_wording_that_can_be_empty_is_told_with_its_place(wording: str) -> None:
    with pytest.raises(InputError, match="nothing at all") as raised:
        index(wording)
    assert (raised.value.file, raised.value.line) == ("test.toml", 3)


REQUIRED = [
    ("play it", {"play", "it"}),
    ("[then] play", {"play"}),
    ("(play|pick) it", {"it"}),
    ("(play it|pick it)", {"it"}),
    ("{fret+:from} on <string>", {"{fret}", "on", "{string}"}),
    ("({fret}|{fret:to} up)", {"{fret}"}),
    ("fret {fret}", {"fret", "{fret}"}),
]


@pytest.mark.parametrize(("wording", "needs"), REQUIRED)
def test_what_a_wording_cannot_do_without(wording: str, needs: set[str]) -> None:
    assert required(parse(wording)) == needs


def grammar(*phrases: tuple[str, str]) -> Grammar:
    made = tuple(Phrase(name, None, (template(say),)) for name, say in phrases)
    return Grammar("en", made, (), (), WordLists())


def test_phrases_follow_those_that_they_refer_to() -> None:
    ordered = in_order(grammar(("on", "on <string>"), ("string", "the {letter}"), ("on", "at <string>")))
    assert [[phrase.name for phrase in group] for group in ordered] == [["string"], ["on", "on"]]


def test_a_circle_is_told() -> None:
    with pytest.raises(InputError, match=r"circle: .*on"):
        in_order(grammar(("on", "on <string>"), ("string", "the <on>")))


def test_a_phrase_that_refers_to_itself_is_a_circle() -> None:
    with pytest.raises(InputError, match="circle"):
        in_order(grammar(("on", "on <on>")))


def test_the_english_grammar_is_in_order() -> None:
    seen: set[str] = set()
    english = load_grammar()
    names = {phrase.name for phrase in english.phrases}
    for group in in_order(english):
        needs = {
            leaf.symbol
            for phrase in group
            for one in phrase.say
            for leaf in leaves(one.node)
            if not isinstance(leaf, Word)
        }
        assert needs & names <= seen
        seen |= {phrase.name for phrase in group}
    assert seen == names


LEAVES = st.one_of(
    st.sampled_from("abc").map(Word),
    st.just(Slot("number", "n")),
    st.just(Ref("number")),
)
NODES = st.recursive(
    LEAVES,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda parts: Seq(tuple(parts))),
        st.lists(inner, min_size=1, max_size=3).map(lambda parts: Choice(tuple(parts))),
    ),
    max_leaves=8,
)
TALKS = st.lists(st.sampled_from(["a", "b", "c", "7"]), min_size=1, max_size=4).map(" ".join)


def chart_of(text: str) -> Chart:
    """A chart in which each 7 is a number."""
    chart = Chart(cut(text))
    for at, item in enumerate(chart.items):
        if item.text == "7":
            chart.add(Edge(at, at + 1, "number", 7))
    return chart


@given(NODES, TALKS)
def test_neither_beginnings_nor_needs_rule_out_a_match(node: Node, text: str) -> None:
    chart = chart_of(text)
    found = list(matches(chart, node, 0))
    if not found:
        return
    words = {item.text for item in chart.items}
    symbols = {"{number}"} if "7" in words else set()
    assert required(node) <= words | symbols
    begins = Index([("x", Template("x", Seq((node, Word("end"))), "test.toml", 1))])
    assert begins.candidates([chart.items[0].text], chart.starting[0])


@given(st.lists(NODES, max_size=5), TALKS, st.integers(0, 31))
def test_wordings_matched_together_match_as_each_would_alone(
    nodes: list[Node], text: str, wanted: int
) -> None:
    chart = chart_of(text)
    alone = [
        (at, match) for at, node in enumerate(nodes) if wanted >> at & 1 for match in matches(chart, node, 0)
    ]
    assert Bundle(nodes).found(chart, 0, wanted) == alone
