"""Words that captions write in place of others: from the table, and near-misses of the field's own."""

from __future__ import annotations

import pytest

from notesgen.grammar.load import load_grammar
from notesgen.grammar.model import Mishearing
from notesgen.speech.mishearings import NEAR_MISS, Misheard, Mishearings
from tests.speech.talk import cut

TABLE = (
    Mishearing("ate", "8", 0.3),
    Mishearing("a leaven", "11", 0.5),
    Mishearing("hammered on", "hammer", 0.2),
    Mishearing("be", "B", 0.6),
)
FIELD = ("hammer", "string", "strings", "slide", "trill", "tap")
KNOWN = frozenset({"slice", "string", "strong"})
HEARS = Mishearings(TABLE, FIELD, KNOWN)

CASES = [
    ("the ate", [Misheard(1, 2, "8", 0.3)]),
    ("a leaven on", [Misheard(0, 2, "11", 0.5)]),
    ("a leaf", []),
    ("hammered-on", [Misheard(0, 2, "hammer", 0.2)]),
    ("Ate, be.", [Misheard(0, 1, "8", 0.3), Misheard(1, 2, "B", 0.6)]),
    # near-misses
    ("hamer", [Misheard(0, 1, "hammer", NEAR_MISS)]),
    ("hammmer", [Misheard(0, 1, "hammer", NEAR_MISS)]),
    ("strimg", [Misheard(0, 1, "string", NEAR_MISS)]),
    ("trilll", [Misheard(0, 1, "trill", NEAR_MISS)]),
    ("string", []),  # known
    ("slice", []),  # a word of the grammar, near as it is
    ("tapp", []),  # too short to tell
    ("humour", []),  # too far
    ("strin9", []),  # no word
    ("8th", []),
]


@pytest.mark.parametrize(("text", "expected"), CASES)
def test_what_may_have_been_meant(text: str, expected: list[Misheard]) -> None:
    assert list(HEARS.find(cut(text))) == expected


def test_a_near_miss_is_of_the_closest_word() -> None:
    assert [one.meant for one in HEARS.find(cut("stringss"))] == ["strings"]


GRAMMAR = load_grammar()


@pytest.mark.parametrize("entry", GRAMMAR.mishearings, ids=lambda entry: str(entry.heard))
def test_each_entry_of_the_grammar_is_found(entry: Mishearing) -> None:
    hears = Mishearings(GRAMMAR.mishearings, (), frozenset())
    behind = entry.after[:1]
    for words in (entry.heard,) if isinstance(entry.heard, str) else entry.heard:
        sure = f"the sixth string {words}. " if entry.known else ""
        text = " ".join((*behind, words))
        found = [one.meant for one in hears.find(cut(sure + text)) if one.end > len(behind)]
        assert entry.meant in found


def test_a_word_of_another_english_waits_for_surer_company() -> None:
    hears = Mishearings(GRAMMAR.mishearings, (), frozenset())
    assert "open" not in {one.meant for one in hears.find(cut("fifth fret, then free"))}
    assert "open" in {one.meant for one in hears.find(cut("the sixth string, free. Then free."))}
