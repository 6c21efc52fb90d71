"""The chart: every reading of every stretch of items, and the matching of wordings against it.

An edge says "items start..end can be read as `symbol` with this value". Number words and misheard words
make the first edges; the grammar's phrases build on them in the order in which they depend on one another.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from notesgen.grammar.template import Choice, Node, Ref, Seq, Slot, Word
from notesgen.speech.items import Break, Item

Value = str | int | float | tuple[int | str | float, ...] | None

LIST_LIMIT = 16  # the longest list of frets that one slot takes


class Edge(Struct, frozen=True):
    """One reading of items `start` up to (not including) `end`; `cost` grows with each misheard word."""

    start: int
    end: int
    symbol: str
    value: Value
    cost: float = 0.0
    name: str = ""


class Match(Struct, frozen=True):
    """A wording found from `start` to `end`, with the edges that fill its slots, in order."""

    start: int
    end: int
    slots: tuple[Edge, ...]
    cost: float = 0.0


class Chart:
    """Items and the edges found over them so far. Edges are only ever added, phrase by phrase."""

    def __init__(self, items: tuple[Item, ...]) -> None:
        self.items = items
        self.starting: list[dict[str, list[Edge]]] = [{} for _ in items]
        self.heard_as: list[dict[str, float]] = [{} for _ in items]

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


def matches(chart: Chart, node: Node, start: int) -> Iterator[Match]:
    """Every way in which the wording fits the items from `start` on."""
    for end, slots, cost in _fit(chart, node, start, start):
        if end > start:
            yield Match(start, end, slots, cost)


_Fit = tuple[int, tuple[Edge, ...], float]


def _fit(chart: Chart, node: Node, at: int, start: int) -> Iterator[_Fit]:
    match node:
        case Word(text=text):
            if chart.joined(at, start):
                if chart.items[at].text == text:
                    yield at + 1, (), 0.0
                elif text in chart.heard_as[at]:
                    yield at + 1, (), chart.heard_as[at][text]
        case Ref(symbol=symbol):
            if chart.joined(at, start):
                for edge in chart.edges(at, symbol):
                    yield edge.end, (), edge.cost
        case Slot():
            if chart.joined(at, start):
                yield from _fit_slot(chart, node, at, start)
        case Choice(options=options):
            for option in options:
                yield from _fit(chart, option, at, start)
        case Seq(parts=parts):
            yield from _fit_sequence(chart, parts, at, start)


def _fit_sequence(chart: Chart, parts: tuple[Node, ...], at: int, start: int) -> Iterator[_Fit]:
    if not parts:
        yield at, (), 0.0
        return
    for middle, slots, cost in _fit(chart, parts[0], at, start):
        for end, more, further in _fit_sequence(chart, parts[1:], middle, start):
            yield end, slots + more, cost + further


def _fit_slot(chart: Chart, slot: Slot, at: int, start: int) -> Iterator[_Fit]:
    for edge in chart.edges(at, slot.symbol):
        named = Edge(edge.start, edge.end, edge.symbol, edge.value, edge.cost, slot.name)
        yield edge.end, (named,), edge.cost
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
        longer = (*so_far, Edge(edge.start, edge.end, edge.symbol, edge.value, edge.cost, slot.name))
        yield edge.end, longer, sum(e.cost for e in longer)
        yield from _fit_list(chart, slot, longer, start)
