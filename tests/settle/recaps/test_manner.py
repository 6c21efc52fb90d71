"""The kinds of words around a run of notes, by where they stand."""

from __future__ import annotations

import pytest

from notesgen.grammar.load import load_grammar
from notesgen.settle.recaps.blocks import Surroundings, blocks
from notesgen.settle.recaps.manner import Kind, Manner
from notesgen.settle.recaps.newness import fitted
from tests.settle.recaps.test_blocks import told

WORDS = load_grammar().words


def kinds(text: str) -> frozenset[Kind]:
    """The kinds of words around the last run of the talk."""
    steps, items, sentences = told(text)
    manner = Manner(WORDS, Surroundings(steps, items, sentences))
    return manner.of(blocks(steps, ())[-1])


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Then it is 5 and 7.", ("inside", "row_links")),
        ("And 5, 7. So it was 5 and 7.", ("first", "summing_up")),
        ("On the string then 5, 7.", ("last", "moving_on")),
        ("That was the same. 5, 7.", ("before", "sameness")),
        ("The fret 5 7 again.", ("behind", "again")),
    ],
)
def test_a_kind_is_found_where_it_stands(text: str, kind: Kind) -> None:
    assert kind in kinds(text)
    assert (kind[0], "hammering") not in kinds("5, 7.")


def test_every_kind_that_counts_is_a_list_of_the_grammar() -> None:
    known = set(WORDS.__struct_fields__)
    assert all(known >= set(lists) for lists in fitted().manner.values())
