"""The matching of wordings against the chart.

Each part of a wording is made once into a function that lists every way in which it fits at an item; the
readers ask them hundreds of thousands of times a lesson.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence, Set
from functools import cache
from operator import itemgetter
from typing import NamedTuple

from msgspec.structs import replace

from notesgen.grammar.index import masks, openers
from notesgen.grammar.template import Choice, Node, Ref, Seq, Slot, Word
from notesgen.speech.chart import AS_WORD, Chart, Edge, Match
from notesgen.speech.items import Break

NAME = 0.5  # cost of reading as an article what is written as a name: "3 on the E, A 2"
_ARTICLES = frozenset({"a"})
PASSING = "in_passing"  # words that may stand between any two parts of an idiom: "hammer on there to 7"
PASSED = 0.4  # cost of passing over them
FINGERED = "using_finger"  # how a fret in a list is fingered
BARE_FRETS = ("fret_number", "ordinal", "open")
APART = 0.2  # ... behind a comma, where they may begin something new: "open, now the G string"
STRING = "string"
OF_THE_NEXT = 1.0  # cost of "open" or an ordinal in a list, where a string follows that it is of
LIST_LIMIT = 16  # the longest list of frets that one slot takes


class _Fit(NamedTuple):
    """A part of a wording fitted up to item `end`."""

    end: int
    slots: tuple[Edge, ...] = ()
    cost: float = 0.0
    heard: tuple[str, ...] = ()


_Fits = Callable[[Chart, int, int], Sequence[_Fit]]
"""From the chart, an item and the item at which the wording began, to all fits of a part of it."""


class _Fork(NamedTuple):
    """The ways in which wordings go on from a place where they are still alike.

    Masks of branches by what has to stand where they begin; `empty` are those that may be nothing at all.
    """

    branches: tuple[_Branch, ...]
    by_word: Mapping[str, int]
    by_symbol: Mapping[str, int]
    empty: int

    def open(self, chart: Chart, start: int, so_far: Sequence[_Fit]) -> int:
        """The mask of the branches that may go on from what fits so far."""
        found = self.empty
        for fit in so_far:
            at = fit.end
            if chart.joined(at, start):
                found |= self.by_word.get(chart.items[at].text, 0)
                begun = chart.starting[at]
                if len(self.by_symbol) < len(begun):
                    for symbol, mask in self.by_symbol.items():
                        if symbol in begun:
                            found |= mask
                else:
                    for symbol in begun:
                        found |= self.by_symbol.get(symbol, 0)
        return found


class _Branch(NamedTuple):
    """A part of one or more wordings, at the place that it has in all of them.

    `mask` are all of these wordings, `ends` the places of those that are complete with it; the others go on
    at the `fork`.
    """

    fits: _Fits
    mask: int
    ends: tuple[int, ...]
    fork: _Fork | None


class Bundle:
    """Wordings that are matched together: what some of them begin with in common is fitted once.

    `passes` tells that words said in passing may stand between any two of their parts.
    """

    def __init__(self, wordings: Sequence[Node], *, passes: bool = False) -> None:
        self._fork = _fork([(at, _parts(node)) for at, node in enumerate(wordings)])
        self._passes = passes

    def found(self, chart: Chart, start: int, wanted: int) -> list[tuple[int, Match]]:
        """The matches of the wordings in the mask `wanted` from the item on, by the wording's place."""
        if not wanted:
            return []
        complete: list[tuple[int, Sequence[_Fit]]] = []
        _follow(self._fork, chart, start, wanted, self._passes, (_Fit(start),), complete)
        return [
            (at, Match(start, fit.end, fit.slots, fit.cost, fit.heard))
            for at, fits in sorted(complete, key=itemgetter(0))
            for fit in fits
            if fit.end > start
        ]


def matches(chart: Chart, node: Node, start: int) -> list[Match]:
    """Every way in which a wording fits the items from a given one on."""
    return [match for _, match in Bundle([node]).found(chart, start, 1)]


_Rest = tuple[int, tuple[Node, ...]]
"""The place of a wording, and the parts that it still has."""


def _parts(node: Node) -> tuple[Node, ...]:
    return node.parts if isinstance(node, Seq) else (node,)


def _fork(rest: Sequence[_Rest]) -> _Fork:
    by_part: dict[Node, list[_Rest]] = {}
    for at, parts in rest:
        if parts:
            by_part.setdefault(parts[0], []).append((at, parts[1:]))
    branches = tuple(_branch(part, others) for part, others in by_part.items())
    begun = [_begun_by(part, branch) for part, branch in zip(by_part, branches, strict=True)]
    return _Fork(
        branches=branches,
        by_word=masks(words for words, _, _ in begun),
        by_symbol=masks((*symbols, *(AS_WORD + word for word in words)) for words, symbols, _ in begun),
        empty=sum(empty << place for place, (_, _, empty) in enumerate(begun)),
    )


def _begun_by(part: Node, branch: _Branch) -> tuple[Set[str], Set[str], bool]:
    """Words and symbols that can begin a branch, and whether it can end with nothing.

    Where its part may be left out, what stands behind can begin it: most parts that may are left out.
    """
    words, symbols, empty = openers(part)
    if not empty or branch.fork is None:
        return words, symbols, empty
    further = branch.fork
    return (
        words | further.by_word.keys(),
        symbols | further.by_symbol.keys(),
        bool(branch.ends or further.empty),
    )


def _branch(part: Node, begun: Sequence[_Rest]) -> _Branch:
    mask = sum(1 << at for at, _ in begun)
    ends = tuple(at for at, others in begun if not others)
    return _Branch(_fits(part), mask, ends, _fork(begun) if len(ends) < len(begun) else None)


def _follow(
    fork: _Fork,
    chart: Chart,
    start: int,
    wanted: int,
    passes: bool,
    so_far: Sequence[_Fit],
    complete: list[tuple[int, Sequence[_Fit]]],
) -> None:
    """Goes on from what fits `so_far` along all branches to wanted wordings; adds those that are complete."""
    if passes:
        so_far = [*so_far, *_passing(chart, start, so_far)]
    left = fork.open(chart, start, so_far)
    while left:
        place = left.bit_length() - 1
        left ^= 1 << place
        branch = fork.branches[place]
        if not branch.mask & wanted:
            continue
        further = [_joined(fit, more) for fit in so_far for more in branch.fits(chart, fit.end, start)]
        if further:
            complete += [(at, further) for at in branch.ends if wanted >> at & 1]
            if branch.fork is not None:
                _follow(branch.fork, chart, start, wanted, passes, further, complete)


def _passing(chart: Chart, start: int, so_far: Sequence[_Fit]) -> Iterator[_Fit]:
    """What fits so far, with the words behind it that were said in passing."""
    for fit in so_far:
        if fit.end > start and chart.joined(fit.end, start):
            for edge in chart.starting[fit.end].get(PASSING, ()):
                apart = APART if chart.items[fit.end].before > Break.NONE else 0.0
                yield fit._replace(end=edge.end, cost=fit.cost + edge.cost + PASSED + apart)


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
            tried = every if len(chart.words[at]) > 1 else by_word.get(chart.items[at].text, otherwise)
        if len(tried) == 1:
            return tried[0](chart, at, start)
        return [fit for option in tried for fit in option(chart, at, start)]

    return fits


def _guard(option: Node) -> frozenset[str] | None:
    """The words with one of which the option has to begin; None where it may begin otherwise."""
    words, symbols, empty = openers(option)
    return None if symbols or empty else words


def _nothing(_: Chart, at: int, __: int) -> Sequence[_Fit]:
    return (_Fit(at),)


def _sequence(parts: list[_Fits]) -> _Fits:
    if not parts:
        return _nothing

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
    at = _behind_finger(chart, so_far[-1].end, start)
    if chart.joined(at, start) and chart.items[at].text == "and":
        at += 1
    elif at < len(chart.items) and chart.items[at].hesitant:
        return []  # "5, er, 6": the second may put the first right
    if not chart.joined(at, start):
        return []
    found: list[_Fit] = []
    for edge in chart.edges(at, slot.symbol):
        torn = OF_THE_NEXT if _opens_the_next(chart, edge) else 0.0
        longer = (*so_far, replace(edge, name=slot.name, cost=edge.cost + torn))
        heard = tuple(words for member in longer for words in member.heard)
        found.append(_Fit(edge.end, longer, sum(member.cost for member in longer), heard))
        found += _longer(chart, slot, longer, start)
    return found


def _opens_the_next(chart: Chart, edge: Edge) -> bool:
    """Whether what stands behind a comma in a list is of the string that follows it.

    "The D string, 5, open A, then ..."; "second string sixth, third string fifth".
    """
    items, at = chart.items, edge.end
    if at >= len(items) or items[edge.start].before == Break.NONE or items[at].before > Break.NONE:
        return False
    if items[at].text == STRING:
        return bool(chart.edges(edge.start, "string_ordinal"))
    ends = at + 1 == len(items) or items[at + 1].before > Break.NONE
    return ends and edge.value == 0 and bool(chart.edges(at, "letter"))


def _behind_finger(chart: Chart, at: int, start: int) -> int:
    """The item behind the finger that takes the fret before it: "3 with your ring finger, 5 on the D".

    Only a bare fret goes on with the list there: "and that seven gets bent" begins something new.
    """
    behind = max((edge.end for edge in chart.edges(at, FINGERED) if chart.joined(at, start)), default=at)
    return behind if any(chart.edges(behind, symbol) for symbol in BARE_FRETS) else at


def _passed(edge: Edge) -> _Fit:
    return _Fit(edge.end, (), edge.cost, edge.heard)


def _joined(fit: _Fit, more: _Fit) -> _Fit:
    """Both parts as one; an empty part, such as an option left out, changes nothing."""
    if more.end == fit.end:
        return fit
    return _Fit(more.end, fit.slots + more.slots, fit.cost + more.cost, fit.heard + more.heard)
