"""Which wordings can begin with which word or symbol, so that only those are tried at a place."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from functools import cache, reduce
from graphlib import CycleError, TopologicalSorter
from operator import or_
from typing import Generic, TypeVar

from notesgen.errors import InputError
from notesgen.grammar.model import Grammar, Phrase, Template
from notesgen.grammar.template import Choice, Node, Ref, Seq, Slot, Word, leaves

Owner = TypeVar("Owner")


class Index(Generic[Owner]):
    """Wordings by what can begin them. `Owner` is the phrase or idiom that a wording belongs to.

    Sets of wordings are masks: bit n stands for the nth of `wordings`.
    """

    def __init__(self, wordings: Iterable[tuple[Owner, Template]]) -> None:
        self.wordings = tuple(wordings)
        begun = [openers(template.node) for _, template in self.wordings]
        for (_, template), (_, _, empty) in zip(self.wordings, begun, strict=True):
            if empty:
                raise InputError(
                    f'the wording "{template.text}" can match nothing at all', template.file, template.line
                )
        self.by_word = masks(words for words, _, _ in begun)
        self.by_symbol = masks(symbols for _, symbols, _ in begun)
        self.needing = masks(required(template.node) for _, template in self.wordings)

    def candidates(self, words: Iterable[str], symbols: Mapping[str, object]) -> int:
        """The mask of the wordings that may begin where any of these words and (as keys) symbols stand."""
        found = 0
        for word in words:
            found |= self.by_word.get(word, 0)
        for symbol in self.by_symbol.keys() & symbols.keys():
            found |= self.by_symbol[symbol]
        return found

    def hopeless(self, present: Set[str]) -> int:
        """The mask of the wordings that need what is not among these words and (in braces) symbols."""
        return reduce(or_, (mask for need, mask in self.needing.items() if need not in present), 0)


def masks(keys: Iterable[Iterable[str]]) -> dict[str, int]:
    """For each key the mask of those that have it: bit n stands for the nth."""
    found: dict[str, int] = {}
    for at, own in enumerate(keys):
        for key in own:
            found[key] = found.get(key, 0) | 1 << at
    return found


def required(node: Node) -> frozenset[str]:
    """The words and symbols without which the wording cannot match; symbols in braces, to tell them apart."""
    match node:
        case Word(text=text):
            return frozenset({text})
        case Slot(symbol=symbol) | Ref(symbol=symbol):
            return frozenset({"{" + symbol + "}"})
        case Seq(parts=parts):
            return frozenset().union(*(required(part) for part in parts))
        case Choice(options=options):
            return frozenset.intersection(*(required(option) for option in options))


def in_order(grammar: Grammar) -> list[list[Phrase]]:
    """The phrases in groups of one name, each after those that it refers to.

    Raises InputError on a circle.
    """
    by_name: dict[str, list[Phrase]] = {}
    for phrase in grammar.phrases:
        by_name.setdefault(phrase.name, []).append(phrase)
    needs = {
        name: {
            leaf.symbol
            for p in group
            for t in p.say
            for leaf in leaves(t.node)
            if isinstance(leaf, Slot | Ref)
        }
        for name, group in by_name.items()
    }
    try:
        order = TopologicalSorter(needs).static_order()
        return [by_name[name] for name in order if name in by_name]
    except CycleError as error:
        raise InputError(
            f"these phrases refer to one another in a circle: {' -> '.join(error.args[1])}"
        ) from error


@cache
def openers(node: Node) -> tuple[frozenset[str], frozenset[str], bool]:
    """Words and symbols that can come first in a wording, and whether it can be empty."""
    match node:
        case Word(text=text):
            return frozenset({text}), frozenset(), False
        case Slot(symbol=symbol) | Ref(symbol=symbol):
            return frozenset(), frozenset({symbol}), False
        case Choice(options=options):
            parts = [openers(option) for option in options]
            return (
                frozenset().union(*(p[0] for p in parts)),
                frozenset().union(*(p[1] for p in parts)),
                any(p[2] for p in parts),
            )
        case Seq(parts=inner):
            words: frozenset[str] = frozenset()
            symbols: frozenset[str] = frozenset()
            for part in inner:
                more_words, more_symbols, empty = openers(part)
                words |= more_words
                symbols |= more_symbols
                if not empty:
                    return words, symbols, False
            return words, symbols, True
