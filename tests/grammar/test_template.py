"""The little language of wordings: what each sign means, and that nothing is lost in reading."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.grammar.template import Choice, Node, Ref, Seq, Slot, TemplateError, Word, leaves, parse

NOTHING = Seq(())


def words(text: str) -> tuple[Word, ...]:
    return tuple(Word(word) for word in text.split())


@pytest.mark.parametrize(
    ("text", "node"),
    [
        ("open", Word("open")),
        ("Open A", Seq(words("open a"))),
        ("[the] open", Seq((Choice((Word("the"), NOTHING)), Word("open")))),
        ("[the|your] e", Seq((Choice((Choice(words("the your")), NOTHING)), Word("e")))),
        ("(up|back down)", Choice((Word("up"), Seq(words("back down"))))),
        ("{fret}", Slot("fret", "fret")),
        ("{fret:from}", Slot("fret", "from")),
        ("{any_fret+:via}", Slot("any_fret", "via", many=True)),
        ("<on_the> {string}", Seq((Ref("on_the"), Slot("string", "string")))),
        ("hammer-on", Seq(words("hammer on"))),
        ("hammer[-on]", Seq((Word("hammer"), Choice((Word("on"), NOTHING))))),
        ("it's", Seq(words("it 's"))),
        ("don't", Seq(words("do n't"))),
        (
            "[a [very]] low",
            Seq((Choice((Seq((Word("a"), Choice((Word("very"), NOTHING)))), NOTHING)), Word("low"))),
        ),
    ],
)
def test_each_sign_means_one_thing(text: str, node: Node) -> None:
    assert parse(text) == node


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "empty"),
        ("  ", "empty"),
        ("[the open", 'never closed by "]"'),
        ("(up|down", 'never closed by ")"'),
        ("the] open", "closes nothing"),
        ("(up]", 'never closed by ")"'),
        ("{fret", "left open"),
        ("<then", "left open"),
        ("{fret from}", "is no slot"),
        ("{2}", "is no slot"),
        ("{}", "is no slot"),
        ("<on the>", "names no phrase"),
    ],
)
def test_a_wording_that_cannot_be_read_is_told_plainly(text: str, told: str) -> None:
    with pytest.raises(TemplateError, match=told.replace("(", r"\(").replace(")", r"\)")):
        parse(text)


def test_leaves_stand_from_left_to_right() -> None:
    assert list(leaves(parse("(a|{fret}) [<then>] b"))) == [
        Word("a"),
        Slot("fret", "fret"),
        Ref("then"),
        Word("b"),
    ]


NAMES = st.sampled_from(["fret", "string", "on_the"])
LEAVES = st.one_of(
    st.sampled_from(["open", "slide", "g", "seven"]).map(Word),
    NAMES.map(Ref),
    st.builds(Slot, NAMES, NAMES, st.booleans()),
)


def grown(inner: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
    several = st.lists(inner, min_size=2, max_size=4).map(tuple)
    return st.one_of(
        several.map(Seq),
        several.map(Choice),
        inner.map(lambda node: Choice((node, NOTHING))),
    )


def spelt(node: Node, inside: bool = False) -> str:
    """A wording that reads as the node; a sequence `inside` another needs brackets of its own."""
    match node:
        case Word(text=text):
            return text
        case Ref(symbol=symbol):
            return f"<{symbol}>"
        case Slot(symbol=symbol, name=name, many=many):
            return f"{{{symbol}{'+' if many else ''}:{name}}}"
        case Choice(options=(option, Seq(parts=()))):
            return f"[{spelt(option)}]"
        case Choice(options=options):
            return f"({'|'.join(spelt(option) for option in options)})"
        case Seq(parts=parts):
            text = " ".join(spelt(part, inside=True) for part in parts)
            return f"({text})" if inside else text


@given(st.recursive(LEAVES, grown, max_leaves=12))
def test_what_is_spelt_is_read_back(node: Node) -> None:
    assert parse(spelt(node)) == node


@given(st.text(alphabet="ab []()|{}<>:+-'", max_size=30))
def test_any_text_is_read_or_told_of(text: str) -> None:
    try:
        assert isinstance(parse(text), Node)
    except TemplateError as error:
        assert str(error)
