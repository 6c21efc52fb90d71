"""The matching of wordings against the chart.

A wording is made once into a function that lists every way in which it fits at an item; the readers ask it
hundreds of thousands of times a lesson.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from typing import NamedTuple

from msgspec.structs import replace

from notesgen.grammar.index import openers
from notesgen.grammar.template import Choice, Node, Ref, Seq, Slot, Word
from notesgen.speech.chart import AS_WORD, Chart, Edge, Match

NAME = 0.5  # cost of reading as an article what is written as a name: "3 on the E, A 2"
_ARTICLES = frozenset({"a"})
LIST_LIMIT = 16  # the longest list of frets that one slot takes


class _Fit(NamedTuple):
    """A part of a wording fitted up to item `end`."""

    end: int
    slots: tuple[Edge, ...] = ()
    cost: float = 0.0
    heard: tuple[str, ...] = ()


_Fits = Callable[[Chart, int, int], Sequence[_Fit]]
"""From the chart, an item and the item at which the wording began, to all fits of a part of it."""

Matcher = Callable[[Chart, int], list[Match]]
"""From the chart and an item to all matches that begin there."""


def matcher(node: Node) -> Matcher:
    """Every way in which the wording fits the items from a given one on."""
    fits = _fits(node)

    def found(chart: Chart, start: int) -> list[Match]:
        return [
            Match(start, fit.end, fit.slots, fit.cost, fit.heard)
            for fit in fits(chart, start, start)
            if fit.end > start
        ]

    return found


def matches(chart: Chart, node: Node, start: int) -> list[Match]:
    """The matches of a wording that is asked for once."""
    return matcher(node)(chart, start)


@cache
def _fits(node: Node) -> _Fits:
    """The function of a node, made once: wordings have most of their parts in common."""
    match node:
        case Word(text=text):
            return _word(text)
        case Ref(symbol=symbol):
            return _reference(symbol)
        case Slot():
            return _slot(node)
        case Choice(options=options):
            return _choice([(_guard(option), _fits(option)) for option in options])
        case Seq(parts=parts):
            return _sequence([_fits(part) for part in parts])


def _word(text: str) -> _Fits:
    misheard = AS_WORD + text
    as_article = NAME if text in _ARTICLES else 0.0

    def fits(chart: Chart, at: int, start: int) -> Sequence[_Fit]:
        if not chart.joined(at, start):
            return ()
        item = chart.items[at]
        cost = as_article if item.is_name else 0.0
        spoken = [_Fit(at + 1, cost=cost)] if item.text == text else []
        taken_for = chart.starting[at].get(misheard)
        return spoken + [_passed(edge) for edge in taken_for] if taken_for else spoken

    return fits


def _reference(symbol: str) -> _Fits:
    def fits(chart: Chart, at: int, start: int) -> Sequence[_Fit]:
        if not chart.joined(at, start):
            return ()
        return [_passed(edge) for edge in chart.starting[at].get(symbol, ())]

    return fits


def _choice(options: list[tuple[frozenset[str] | None, _Fits]]) -> _Fits:
    """Only those options are tried that may begin with the word at hand."""
    every = [option for _, option in options]
    otherwise = [option for guard, option in options if guard is None]
    words = {word for guard, _ in options for word in guard or ()}
    by_word = {
        word: [option for guard, option in options if guard is None or word in guard] for word in words
    }

    def fits(chart: Chart, at: int, start: int) -> Sequence[_Fit]:
        tried = otherwise
        if chart.joined(at, start):
            tried = every if at in chart.misheard else by_word.get(chart.items[at].text, otherwise)
        return [fit for option in tried for fit in option(chart, at, start)]

    return fits


def _guard(option: Node) -> frozenset[str] | None:
    """The words with one of which the option has to begin; None where it may begin otherwise."""
    words, symbols, empty = openers(option)
    return None if symbols or empty else words


def _sequence(parts: list[_Fits]) -> _Fits:
    def fits(chart: Chart, at: int, start: int) -> Sequence[_Fit]:
        so_far: Sequence[_Fit] = (_Fit(at),)
        for part in parts:
            so_far = [_joined(fit, more) for fit in so_far for more in part(chart, fit.end, start)]
            if not so_far:
                return ()
        return so_far

    return fits


def _slot(slot: Slot) -> _Fits:
    def fits(chart: Chart, at: int, start: int) -> Sequence[_Fit]:
        if not chart.joined(at, start):
            return ()
        found: list[_Fit] = []
        for edge in chart.starting[at].get(slot.symbol, ()):
            named = replace(edge, name=slot.name)
            found.append(_Fit(edge.end, (named,), edge.cost, edge.heard))
            if slot.many:
                found += _longer(chart, slot, (named,), start)
        return found

    return fits


def _longer(chart: Chart, slot: Slot, so_far: tuple[Edge, ...], start: int) -> list[_Fit]:
    """Longer and longer lists of the slot's symbol, with or without "and" between the members."""
    if len(so_far) >= LIST_LIMIT:
        return []
    at = so_far[-1].end
    if chart.joined(at, start) and chart.items[at].text == "and":
        at += 1
    if not chart.joined(at, start):
        return []
    found: list[_Fit] = []
    for edge in chart.edges(at, slot.symbol):
        longer = (*so_far, replace(edge, name=slot.name))
        heard = tuple(words for member in longer for words in member.heard)
        found.append(_Fit(edge.end, longer, sum(member.cost for member in longer), heard))
        found += _longer(chart, slot, longer, start)
    return found


def _passed(edge: Edge) -> _Fit:
    return _Fit(edge.end, (), edge.cost, edge.heard)


def _joined(fit: _Fit, more: _Fit) -> _Fit:
    """Both parts as one; an empty part, such as an option left out, changes nothing."""
    if more.end == fit.end:
        return fit
    return _Fit(more.end, fit.slots + more.slots, fit.cost + more.cost, fit.heard + more.heard)
