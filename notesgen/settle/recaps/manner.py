"""Which kinds of words stand in a run and around it: "striking" inside it, where it has "hit"; "players" at
first, where "we" opens its sentence. The kinds are the grammar's lists of words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain

from msgspec.structs import asdict

from notesgen.grammar.model import WordLists
from notesgen.settle.recaps.blocks import Block, Surroundings
from notesgen.speech.items import Item

NEAR, BEHIND, BEFORE = 4, 3, 12  # words before a run, behind it, and before its sentence

Kind = tuple[str, str]
"""(where the word stands, the list that it is in)."""


class Manner:
    """Finds the kinds of words around the runs of one lesson."""

    def __init__(self, words: WordLists, around: Surroundings) -> None:
        self._around = around
        self._lists: dict[str, list[str]] = {}
        for name, listed in asdict(words).items():
            for word in listed:
                self._lists.setdefault(word, []).append(name)

    def of(self, block: Block) -> frozenset[Kind]:
        """The kinds of words in and around the block."""
        return frozenset(chain.from_iterable(self._kinds(*part) for part in self._parts(block)))

    def _parts(self, block: Block) -> Iterator[tuple[str, Sequence[Item]]]:
        items, steps = self._around.items, self._around.steps
        opening = self._around.sentences.start(block.sentence)
        start, end = self._around.start(block), steps[block.places[-1]].end
        yield "before", items[max(0, opening - BEFORE) : opening]
        yield "first", items[opening : opening + 1]
        yield "lead", items[opening:start]
        yield "near", items[max(0, start - NEAR) : start]
        yield "last", items[max(0, start - 1) : start]
        yield "inside", items[start:end]
        yield "behind", items[end : end + BEHIND]

    def _kinds(self, where: str, items: Sequence[Item]) -> Iterator[Kind]:
        return ((where, name) for item in items for name in self._lists.get(item.text, ()))
