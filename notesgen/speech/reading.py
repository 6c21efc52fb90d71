"""Mentions to instructions: every idiom is tried at every place, and the best tiling is taken."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache, reduce
from operator import or_

from notesgen.grammar.index import Index
from notesgen.grammar.load import load_grammar
from notesgen.grammar.model import Grammar, Idiom
from notesgen.speech.chart import Chart, Match
from notesgen.speech.instructions import Instruction, SlotValue
from notesgen.speech.items import Break, Item
from notesgen.speech.matching import Bundle
from notesgen.speech.mentions import Mentions, commas
from notesgen.speech.surroundings import Surroundings
from notesgen.speech.tiling import Tile, best_tiling

COMMA = 0.05  # cost of a comma inside an instruction
POINTED_OFF = 0.6  # ... behind a word that points: "strike that, 2" strikes no 2
ASIDE_COMMA = 0.3  # ... inside an aside, which is mostly said in one breath, but for rows of numbers


class Reader:
    """A grammar made ready to read with: its wordings indexed by what can begin them."""

    def __init__(self, grammar: Grammar) -> None:
        self.grammar = grammar
        self._mentions = Mentions(grammar)
        self._idioms: Index[Idiom] = Index((idiom, t) for idiom in grammar.idioms for t in idiom.say)
        self._bundle = Bundle([template.node for _, template in self._idioms.wordings], passes=True)
        self._light = frozenset(grammar.words.light)
        self._pointing = frozenset(grammar.words.pointing)
        self._linking = frozenset(grammar.words.linking)

    def read(self, items: tuple[Item, ...]) -> tuple[Instruction, ...]:
        """Everything that the talk says, in order. Items that no idiom takes are left out."""
        return self.read_chart(self.chart(items))

    def chart(self, items: tuple[Item, ...]) -> Chart:
        """The mentions: all readings of all stretches up to the phrases."""
        return self._mentions.chart(items)

    def read_chart(self, chart: Chart) -> tuple[Instruction, ...]:
        """The instructions of a chart that is already made."""
        surroundings = Surroundings(chart, self.grammar.words)
        ruled_out = _ruled_out(chart, self._idioms.needing)
        tiles = [
            tile
            for at in range(len(chart.items))
            for tile in self._tiles(chart, surroundings, at, ruled_out[at])
        ]
        return tuple(_instruction(tile) for tile in best_tiling(chart, tiles, self._light))

    def _tiles(self, chart: Chart, surroundings: Surroundings, at: int, ruled_out: int) -> Iterable[Tile]:
        """The cheapest match of each idiom for each end that it reaches from item `at`.

        The wordings in the mask `ruled_out` are not tried.
        """
        found: dict[tuple[int, str], Tile] = {}
        wanted = self._idioms.candidates(chart.words[at], chart.starting[at]) & ~ruled_out
        for place, match in self._bundle.found(chart, at, wanted):
            idiom, template = self._idioms.wordings[place]
            torn_by = commas(chart, match, self._linking)
            if idiom.in_one_breath and torn_by:
                continue
            cost = idiom.cost + match.cost + surroundings.cost(match, idiom.kind)
            cost += _torn(chart, match, idiom, torn_by) + _pointed_off(chart, match, self._pointing)
            known = found.get((match.end, idiom.name))
            if known is None or cost < known.cost:
                found[match.end, idiom.name] = Tile(idiom, template, match, cost)
        return found.values()


@lru_cache(maxsize=4)
def reader(language: str = "en") -> Reader:
    """The reader of one language, made once for a process."""
    return Reader(load_grammar(language))


def _ruled_out(chart: Chart, needing: Mapping[str, int]) -> list[int]:
    """For each item, the mask of the wordings that need what does not come from it to its sentence's end.

    `needing` holds the masks of those that cannot do without a word, or (in braces) a symbol.
    """
    ruled_out = [0] * len(chart.items)
    all_of_them = reduce(or_, needing.values(), 0)
    absent, hopeless = needing, all_of_them
    for at in range(len(chart.items) - 1, -1, -1):
        here = {*chart.words[at], *("{" + symbol + "}" for symbol in chart.starting[at])}
        if not here.isdisjoint(absent):
            absent = {need: mask for need, mask in absent.items() if need not in here}
            hopeless = reduce(or_, absent.values(), 0)
        ruled_out[at] = hopeless
        if chart.items[at].before >= Break.HARD:
            absent, hopeless = needing, all_of_them
    return ruled_out


def _torn(chart: Chart, match: Match, idiom: Idiom, torn_by: int) -> float:
    """What so many commas inside a match cost: little to an instruction or in a row, much to an aside."""
    if idiom.kind not in ("aside", "frame"):
        return torn_by * COMMA
    row = _commas_in_a_row(chart, match)
    return (torn_by - row) * ASIDE_COMMA + row * COMMA


def _pointed_off(chart: Chart, match: Match, pointing: frozenset[str]) -> float:
    """What commas cost that stand between a word that points and what it would point to."""
    items, within = chart.items, range(match.start + 1, match.end)
    return POINTED_OFF * sum(
        items[at].before == Break.SOFT and items[at - 1].text in pointing for at in within
    )


def _commas_in_a_row(chart: Chart, match: Match) -> int:
    """How many of the commas part numbers in a row: "one, two", "five, flat three"."""
    slots = {slot.start for slot in match.slots}
    return sum(
        chart.items[at].before >= Break.SOFT
        and bool(chart.edges(at - 1, "number"))
        and (at in slots or bool(chart.edges(at, "number")))
        for at in range(match.start + 1, match.end)
    )


def _instruction(tile: Tile) -> Instruction:
    start, end = tile.match.start, tile.match.end
    said = tuple(SlotValue(e.name, e.value, e.start, e.end) for e in tile.match.slots)
    fixed = tuple(SlotValue(name, value, start, start) for name, value in tile.idiom.set.items())
    return Instruction(
        kind=tile.idiom.kind,
        start=start,
        end=end,
        slots=said + fixed,
        idiom=tile.idiom.name,
        wording=tile.template.text,
        doubt=tile.cost,
        misheard=tile.match.heard,
    )
