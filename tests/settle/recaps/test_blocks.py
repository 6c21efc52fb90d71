"""Runs told in one breath, and the words in and around them."""

from __future__ import annotations

import pytest

from notesgen.rehearsal.run import hear
from notesgen.settle.recaps.blocks import Block, Surroundings, blocks
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step, Voice
from notesgen.speech.items import Item
from notesgen.speech.numbers import number_edges
from tests.speech.talk import cut


def told(text: str) -> tuple[tuple[Step, ...], tuple[Item, ...], Sentences]:
    """One step for each number of the talk, without strings."""
    items = cut(text)
    sentences = Sentences(items)
    numbers = sorted(number_edges(items), key=lambda edge: edge.start)
    steps = tuple(
        Step((Voice(int(edge.value)),), edge.start, edge.end, sentences.of(edge.start), 1)
        for edge in numbers
        if isinstance(edge.value, int)
    )
    return steps, items, sentences


def places(found: list[Block]) -> list[tuple[int, ...]]:
    return [block.places for block in found]


def test_a_block_is_the_notes_of_one_sentence() -> None:
    steps, _, _ = told("5, 7. Then 8. 9, 10.")
    assert places(blocks(steps, ())) == [(0, 1), (2,), (3, 4)]


def test_a_seam_cuts_a_sentence() -> None:
    steps, _, _ = told("5, 7 again 8.")
    found = blocks(steps, (2,))
    assert places(found) == [(0, 1), (2,)]
    assert [block.seam for block in found] == [-1, 2]


AROUND = "So 5 and then 7 now. Okay. 8 9 10 12. (4) So the 3 here."


def around(number: int) -> tuple[Surroundings, Block]:
    steps, items, sentences = told(AROUND)
    return Surroundings(steps, items, sentences), blocks(steps, ())[number]


@pytest.mark.parametrize(
    ("number", "start", "first", "words", "after_gap", "bare"),
    [
        (0, 1, "so", {"so", "5", "and", "then", "7", "now"}, False, False),
        (1, 7, "okay", {"8", "9", "10", "12"}, False, True),
        (2, 13, "so", {"so", "the", "3", "here"}, True, False),
    ],
)
def test_surroundings(
    number: int, start: int, first: str, words: set[str], after_gap: bool, bare: bool
) -> None:
    near, block = around(number)
    assert near.start(block) == start
    assert near.first_word(block) == first
    assert near.words(block) == words
    assert near.after_gap(block) == after_gap
    assert near.is_bare(block) == bare
    assert not near.is_named(block)
    assert not near.is_settled(block)


def test_the_english_words_open_a_recap() -> None:
    lesson = hear("5, 7 on the D. 8 on the G. So that was 5, 7, 8.").lesson
    assert len(lesson.events) == 3
