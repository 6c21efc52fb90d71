"""The chart: every reading of every stretch of items, and the matching of wordings against it.

An edge says "items start..end can be read as `symbol` with this value". Number words and misheard words
make the first edges; the grammar's phrases build on them in the order in which they depend on one another.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from notesgen.grammar.template import Choice, Node, Ref, Seq, Slot, Word
from notesgen.speech.items import Break, Item

Value = str | int | float | tuple[int | str | float, ...] | None

AS_WORD = "="  # what begins the symbol of a word that may have been meant
LIST_LIMIT = 16  # the longest list of frets that one slot takes


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

    Items that may be a mishearing of the word "bend" have an edge with the symbol AS_WORD + "bend".
    """

    def __init__(self, items: tuple[Item, ...]) -> None:
        self.items = items
        self.starting: list[dict[str, list[Edge]]] = [{} for _ in items]

    def add(self, edge: Edge) -> None:
        """Adds a reading, unless the same one stands there already at no greater cost."""
        edges = self.starting[edge.start].setdefault(edge.symbol, [])
        if not any(e.end == edge.end and e.value == edge.value and e.cost <= edge.cost for e in edges):
            edges.append(edge)

    def edges(self, start: int, symbol: str) -> list[Edge]:
        """All readings as `symbol` that begin at item `start`."""
        return self.starting[start].get(symbol, []) if start < len(self.items) else []

    def joined(self, at: int, start: int) -> bool:
        """Whether item `at` may belong to a wording that began at item `start`."""
        return at < len(self.items) and (at == start or self.items[at].before < Break.HARD)

    def said(self, start: int, end: int) -> str:
        """The items' own words."""
        return " ".join(item.text for item in self.items[start:end])


def matches(chart: Chart, node: Node, start: int) -> Iterator[Match]:
    """Every way in which the wording fits the items from `start` on."""
    for fit in _fit(chart, node, start, start):
        if fit.end > start:
            yield Match(start, fit.end, fit.slots, fit.cost, fit.heard)


class _Fit(NamedTuple):
    """A part of a wording fitted up to item `end`."""

    end: int
    slots: tuple[Edge, ...] = ()
    cost: float = 0.0
    heard: tuple[str, ...] = ()


def _fit(chart: Chart, node: Node, at: int, start: int) -> Iterator[_Fit]:
    match node:
        case Word(text=text):
            if chart.joined(at, start):
                yield from _fit_word(chart, text, at)
        case Ref(symbol=symbol):
            if chart.joined(at, start):
                for edge in chart.edges(at, symbol):
                    yield _Fit(edge.end, (), edge.cost, edge.heard)
        case Slot():
            if chart.joined(at, start):
                yield from _fit_slot(chart, node, at, start)
        case Choice(options=options):
            for option in options:
                yield from _fit(chart, option, at, start)
        case Seq(parts=parts):
            yield from _fit_sequence(chart, parts, at, start)


def _fit_word(chart: Chart, text: str, at: int) -> Iterator[_Fit]:
    if chart.items[at].text == text:
        yield _Fit(at + 1)
    for edge in chart.edges(at, AS_WORD + text):
        yield _Fit(edge.end, (), edge.cost, edge.heard)


def _fit_sequence(chart: Chart, parts: tuple[Node, ...], at: int, start: int) -> Iterator[_Fit]:
    if not parts:
        yield _Fit(at)
        return
    for first in _fit(chart, parts[0], at, start):
        for rest in _fit_sequence(chart, parts[1:], first.end, start):
            yield _Fit(rest.end, first.slots + rest.slots, first.cost + rest.cost, first.heard + rest.heard)


def _fit_slot(chart: Chart, slot: Slot, at: int, start: int) -> Iterator[_Fit]:
    for edge in chart.edges(at, slot.symbol):
        named = replace(edge, name=slot.name)
        yield _Fit(edge.end, (named,), edge.cost, edge.heard)
        if slot.many:
            yield from _fit_list(chart, slot, (named,), start)


def _fit_list(chart: Chart, slot: Slot, so_far: tuple[Edge, ...], start: int) -> Iterator[_Fit]:
    """Longer and longer lists of the slot's symbol, with or without "and" between the members."""
    if len(so_far) >= LIST_LIMIT:
        return
    at = so_far[-1].end
    if chart.joined(at, start) and chart.items[at].text == "and":
        at += 1
    if not chart.joined(at, start):
        return
    for edge in chart.edges(at, slot.symbol):
        longer = (*so_far, replace(edge, name=slot.name))
        heard = tuple(words for member in longer for words in member.heard)
        yield _Fit(edge.end, longer, sum(member.cost for member in longer), heard)
        yield from _fit_list(chart, slot, longer, start)
