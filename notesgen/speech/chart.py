"""The chart: every reading of every stretch of items.

An edge says "items start..end can be read as `symbol` with this value". Number words and misheard words
make the first edges; the grammar's phrases build on them in the order in which they depend on one another.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import accumulate

from msgspec import Struct

from notesgen.speech.items import Break, Item

Value = str | int | float | tuple[int | str | float, ...] | None

AS_WORD = "="  # what begins the symbol of a word that may have been meant


class Edge(Struct, frozen=True):
    """One reading of items `start` up to (not including) `end`.

    `cost` grows with each misheard word and each comma inside; `heard` tells what was read as what.
    """

    start: int
    end: int
    symbol: str
    value: Value
    cost: float = 0.0
    name: str = ""
    heard: tuple[str, ...] = ()


class Match(Struct, frozen=True):
    """A wording found from `start` to `end`, with the edges that fill its slots, in order."""

    start: int
    end: int
    slots: tuple[Edge, ...]
    cost: float = 0.0
    heard: tuple[str, ...] = ()


class Chart:
    """Items and the edges found over them so far. Edges are only ever added, phrase by phrase.

    Items that may be a mishearing of the word "bend" have an edge with the symbol AS_WORD + "bend"; `words`
    has for each item its own word and those that it may be. `ties` tells of each item whether it may belong
    to a wording that began before it; there is none behind the last. `present` holds for each sentence the
    words and (in braces) symbols that are in it, `sentence` tells the sentence of each item.
    """

    def __init__(self, items: tuple[Item, ...]) -> None:
        self.items = items
        self.starting: list[dict[str, list[Edge]]] = [{} for _ in items]
        self.words: list[tuple[str, ...]] = [(item.text,) for item in items]
        self.ties = [item.before < Break.HARD for item in items] + [False]
        self.sentence = list(accumulate(not tied for tied in self.ties))
        self.present: list[set[str]] = [set() for _ in range(self.sentence[-1] + 1)]
        self._places: dict[str, set[int]] = {}
        for at, item in enumerate(items):
            self._places.setdefault(AS_WORD + item.text, set()).add(at)
            self.present[self.sentence[at]].add(item.text)

    def add(self, edge: Edge) -> None:
        """Adds a reading, unless the same one stands there already at no greater cost."""
        edges = self.starting[edge.start].setdefault(edge.symbol, [])
        self._places.setdefault(edge.symbol, set()).add(edge.start)
        present = self.present[self.sentence[edge.start]]
        present.add("{" + edge.symbol + "}")
        if edge.symbol.startswith(AS_WORD):
            word = edge.symbol.removeprefix(AS_WORD)
            self.words[edge.start] += (word,)
            present.add(word)
        if not any(e.end == edge.end and e.value == edge.value and e.cost <= edge.cost for e in edges):
            edges.append(edge)

    def edges(self, start: int, symbol: str) -> list[Edge]:
        """All readings as `symbol` that begin at item `start`."""
        return self.starting[start].get(symbol, []) if start < len(self.items) else []

    def places(self, words: Iterable[str], symbols: Iterable[str]) -> list[int]:
        """The items, in order, at which one of these words or symbols stands."""
        begun = (self._places.get(symbol, ()) for symbol in (*(AS_WORD + word for word in words), *symbols))
        return sorted({at for places in begun for at in places})

    def joined(self, at: int, start: int) -> bool:
        """Whether item `at` may belong to a wording that began at item `start`."""
        return self.ties[at] or at == start

    def said(self, start: int, end: int) -> str:
        """The items' own words."""
        return " ".join(item.text for item in self.items[start:end])
