"""Items to instructions: the chart is filled, every idiom is tried, and the best tiling is taken."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from msgspec.structs import replace

from notesgen.grammar.index import Index, in_order
from notesgen.grammar.model import Grammar, Idiom, Phrase, Template
from notesgen.grammar.template import without
from notesgen.grammar.tokens import tokens
from notesgen.speech.chart import Chart, Edge, Match, Value, matches
from notesgen.speech.instructions import Instruction, SlotValue
from notesgen.speech.items import Break, Item
from notesgen.speech.numbers import HIGHEST_FRET, number_edges
from notesgen.speech.surroundings import Surroundings
from notesgen.speech.tiling import Tile, best_tiling

COMMA = 0.05  # cost of a comma inside an instruction
ASIDE_COMMA = 0.3  # ... inside an aside, which is mostly said in one breath
PHRASE_COMMA = 0.3  # ... inside a phrase such as a string's name
PRONOUN = 1.2  # cost of reading "one" as a fret
MOST_STRINGS = 6  # the highest number by which strings are called
FIRST_NTH = 3  # "the first" and "the second" are hardly ever frets by themselves
BIG = 40  # a number too big for a fret: a tempo, an age
ARTICLE = 0.5  # cost of reading "a" as a letter

_LINKS = frozenset({"and", "then", "or", "but"})
_LETTERS = {"a", "b", "c", "d", "e", "f", "g"}


class Reader:
    """A grammar made ready to read with: wordings indexed by what begins them, mishearings by their words."""

    def __init__(self, grammar: Grammar) -> None:
        self.grammar = grammar
        fillers = frozenset(word for word in grammar.words.fillers if " " not in word)
        self.phrases: list[Index[Phrase]] = [
            Index((phrase, _heard(template, fillers)) for phrase in group for template in phrase.say)
            for group in in_order(grammar)
        ]
        self.idioms: Index[Idiom] = Index(
            (idiom, _heard(template, fillers)) for idiom in grammar.idioms for template in idiom.say
        )
        self.misheard = _mishearings(grammar)
        self.light = frozenset(grammar.words.light)

    def read(self, items: tuple[Item, ...]) -> tuple[Instruction, ...]:
        """Everything that the talk says, in order. Items that no idiom takes are left out."""
        return self.read_chart(self.chart(items))

    def read_chart(self, chart: Chart) -> tuple[Instruction, ...]:
        """The instructions of a chart that is already made."""
        surroundings = Surroundings(chart, self.grammar.words)
        tiles = [tile for at in range(len(chart.items)) for tile in self._tiles(chart, surroundings, at)]
        return tuple(_instruction(chart, tile) for tile in best_tiling(chart, tiles, self.light))

    def chart(self, items: tuple[Item, ...]) -> Chart:
        """All readings of all stretches up to the phrases; what `explain` prints as mentions."""
        chart = Chart(items)
        for edge in number_edges(items):
            _add_number(chart, edge)
        for at, item in enumerate(items):
            if item.text in _LETTERS:
                chart.add(Edge(at, at + 1, "letter", item.text.upper(), _letter_cost(item)))
        self._add_misheard(chart)
        for index in self.phrases:
            _add_phrases(chart, index)
        return chart

    def _add_misheard(self, chart: Chart) -> None:
        for at in range(len(chart.items)):
            for heard, meant, cost in self.misheard.get(chart.items[at].text, ()):
                end = at + len(heard)
                if tuple(i.text for i in chart.items[at:end]) == heard:
                    _add_heard_as(chart, at, end, meant, cost)

    def _tiles(self, chart: Chart, surroundings: Surroundings, at: int) -> Iterable[Tile]:
        found: dict[tuple[int, str], Tile] = {}
        for idiom, template in self.idioms.candidates(_words_at(chart, at), chart.starting[at]):
            for match in matches(chart, template.node, at):
                cost = match.cost + surroundings.cost(match) + _torn(chart, match, idiom)
                tile = Tile(idiom, template, match, cost)
                known = found.get((match.end, idiom.name))
                if known is None or cost < known.cost:
                    found[match.end, idiom.name] = tile
        return found.values()


@lru_cache(maxsize=4)
def reader(language: str = "en") -> Reader:
    """The reader of one language, made once for a process."""
    from notesgen.grammar.load import load_grammar

    return Reader(load_grammar(language))


def _torn(chart: Chart, match: Match, idiom: Idiom) -> float:
    """What the commas inside a match cost: little to an instruction, much to an aside."""
    return _commas(chart, match) * (ASIDE_COMMA if idiom.kind in ("aside", "frame") else COMMA)


def _commas(chart: Chart, match: Match) -> int:
    inside = chart.items[match.start + 1 : match.end]
    return sum(item.before >= Break.SOFT and item.text not in _LINKS for item in inside)


def _heard(template: Template, fillers: frozenset[str]) -> Template:
    return replace(template, node=without(template.node, fillers))


def _mishearings(grammar: Grammar) -> dict[str, list[tuple[tuple[str, ...], str, float]]]:
    by_first: dict[str, list[tuple[tuple[str, ...], str, float]]] = {}
    for entry in grammar.mishearings:
        heard = tuple(t for chunk in entry.heard.split() for t in tokens(chunk))
        by_first.setdefault(heard[0], []).append((heard, entry.meant, entry.cost))
    return by_first


def _letter_cost(item: Item) -> float:
    """ "a" is an article far more often than a letter, unless it is a capital inside a sentence."""
    if item.text != "a" or (item.capital and item.before < Break.HARD):
        return 0.0
    return ARTICLE


def _add_number(chart: Chart, edge: Edge) -> None:
    """Adds a number, and once more as `fret_number` where a neck has such a fret."""
    chart.add(edge)
    if edge.symbol == "number" and isinstance(edge.value, int) and edge.value <= HIGHEST_FRET:
        pronoun = PRONOUN if chart.items[edge.start].text == "one" else 0.0
        chart.add(Edge(edge.start, edge.end, "fret_number", edge.value, edge.cost + pronoun))
        if 1 <= edge.value <= MOST_STRINGS:
            chart.add(Edge(edge.start, edge.end, "string_number", edge.value, edge.cost))
    if edge.symbol == "ordinal" and isinstance(edge.value, int) and FIRST_NTH <= edge.value <= HIGHEST_FRET:
        chart.add(Edge(edge.start, edge.end, "fret_ordinal", edge.value, edge.cost))
    if edge.symbol == "number" and isinstance(edge.value, int) and edge.value >= BIG:
        chart.add(Edge(edge.start, edge.end, "big", edge.value, edge.cost))


def _add_heard_as(chart: Chart, at: int, end: int, meant: str, cost: float) -> None:
    """Lets items be read as another word: a number, a string's letter, or plain words."""
    if meant.isdigit():
        _add_number(chart, Edge(at, end, "number", int(meant), cost))
    elif len(meant) == 1:
        chart.add(Edge(at, end, "letter", meant.upper(), cost))
    elif end == at + 1:
        chart.heard_as[at][meant] = cost


def _words_at(chart: Chart, at: int) -> tuple[str, ...]:
    return (chart.items[at].text, *chart.heard_as[at])


def _add_phrases(chart: Chart, index: Index[Phrase]) -> None:
    for at in range(len(chart.items)):
        for phrase, template in index.candidates(_words_at(chart, at), chart.starting[at]):
            for match in list(matches(chart, template.node, at)):
                cost = match.cost + PHRASE_COMMA * _commas(chart, match)
                chart.add(Edge(match.start, match.end, phrase.name, _value(phrase, match), cost))


def _value(phrase: Phrase, match: Match) -> Value:
    """The phrase's own value with its slots put in; without one, the value of its only slot."""
    if phrase.value is None:
        return match.slots[0].value if match.slots else None
    if isinstance(phrase.value, str) and "{" in phrase.value:
        text = phrase.value
        if len(match.slots) == 1 and text == "{" + match.slots[0].name + "}":
            return match.slots[0].value
        for edge in match.slots:
            text = text.replace("{" + edge.name + "}", str(edge.value))
        return text
    return phrase.value


def _instruction(chart: Chart, tile: Tile) -> Instruction:
    slots = tuple(SlotValue(e.name, e.value, e.start, e.end) for e in tile.match.slots)
    fixed = tuple(
        SlotValue(name, value, tile.match.start, tile.match.start) for name, value in tile.idiom.set.items()
    )
    return Instruction(
        kind=tile.idiom.kind,
        start=tile.match.start,
        end=tile.match.end,
        slots=slots + fixed,
        idiom=tile.idiom.name,
        wording=tile.template.text,
        doubt=tile.cost,
    )
