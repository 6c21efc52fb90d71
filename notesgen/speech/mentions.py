"""Items to mentions: the chart filled with every reading of numbers, letters, misheard words and phrases."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from notesgen.grammar.index import Index, in_order
from notesgen.grammar.model import Grammar, Phrase
from notesgen.grammar.template import Word, leaves
from notesgen.speech.chart import AS_WORD, Chart, Edge, Match, Value
from notesgen.speech.items import Break, Item
from notesgen.speech.matching import STRING, Bundle
from notesgen.speech.mishearings import Misheard, Mishearings
from notesgen.speech.numbers import HIGHEST_FRET, number_edges
from notesgen.speech.pronoun import LETTERS, Pronoun

PHRASE_COMMA = 0.3  # cost of a comma inside a phrase such as a string's name
ARTICLE = 0.5  # cost of reading "a" as a letter
A_FLAT = 0.1  # ... before "flat" or the like: a note, more often than "a sharp attack"
SHORTEST_PLURAL = 4  # letters of the shortest word that may be a noun in the plural
MOST_STRINGS = 6  # the highest number by which strings are called
HIGHEST_STRING = 9  # ... by which they may be called by mistake, or on other instruments
INDEFINITE = "a"
TOGETHER = frozenset(
    {"string", "other_string", "third_string", "fourth_string"}
)  # slots for strings beside each other
BEYOND = 0.5  # cost of reading such a number as a string's: "on the A string 7" is a fret
FIRST_NTH = 3  # "the first" and "the second" are hardly ever frets by themselves
FINGERS = 5  # of one hand
BIG = 40  # a number too big for a fret: a tempo, an age
DEGREES = frozenset((1, 2, 3, 4, 5, 6, 7, 9, 11, 13))  # of a scale, and those that chords add


class Mentions:
    """The phrases and mishearings of a grammar, ready to be found."""

    def __init__(self, grammar: Grammar) -> None:
        indices = [Index((p, template) for p in group for template in p.say) for group in in_order(grammar)]
        self._phrases = [(index, Bundle([t.node for _, t in index.wordings])) for index in indices]
        self._pointing = frozenset((*grammar.words.pointing, *grammar.words.article))
        self._pointers, self._one = frozenset(grammar.words.pointing), frozenset(grammar.words.one)
        self._open = frozenset(grammar.words.open)
        self._pronoun = Pronoun(grammar.words)
        self._linking = frozenset(grammar.words.linking)
        self._before_string = frozenset(grammar.words.before_a_string)
        self._string = frozenset(grammar.words.string)
        self._string_names = frozenset(grammar.words.string_names)
        self._accidentals = frozenset(grammar.words.accidentals)
        self._no_things = frozenset(grammar.words.no_things)
        self._mishearings = Mishearings(grammar.mishearings, grammar.words.field_words, _vocabulary(grammar))

    def chart(self, items: tuple[Item, ...]) -> Chart:
        """All readings of all stretches up to the phrases."""
        chart = Chart(items)
        numbers = tuple(number_edges(items))
        places = frozenset(edge.start for edge in numbers if edge.symbol == "number")
        ordinals = frozenset(edge.end - 1 for edge in numbers if edge.symbol == "ordinal")
        so_many = frozenset(edge.start for edge in numbers if edge.symbol == "plural")
        single = self._single_strings(items, numbers)
        for edge in numbers:
            named = self._follows_name(items, edge.start, ordinals)
            for reading in _number_readings(edge, self._pronoun.cost(items, edge.start, places)):
                if reading.symbol != "string_number" or not (named or edge.start in single):
                    chart.add(reading)
        for at, item in enumerate(items):
            if item.text in LETTERS:
                chart.add(Edge(at, at + 1, "letter", item.text.upper(), self._letter_cost(items, at, places)))
            elif at not in so_many and self._is_plural(item):
                chart.add(Edge(at, at + 1, "things", None))
        for misheard in self._mishearings.find(items):
            _add_misheard(chart, misheard)
        for index, bundle in self._phrases:
            _add_phrases(chart, index, bundle, self._linking)
        return chart

    def _follows_name(self, items: tuple[Item, ...], at: int, ordinals: frozenset[int]) -> bool:
        """Whether "string" before the number already has its name: in "the D string, five" 5 is a fret."""
        if at < 2 or items[at - 1].text not in self._string or items[at - 1].before > Break.NONE:
            return False
        if items[at - 1].text == "strings":
            return False  # "fret number one, strings 6 and 5": several are named by what follows
        name = items[at - 2].text
        that_one = name in self._one and at > 2 and items[at - 3].text in self._pointers
        if that_one and items[at].before == Break.NONE:
            return False  # "3 on that one, string 2 open"
        return name in LETTERS or at - 2 in ordinals or name in self._string_names

    def _single_strings(self, items: tuple[Item, ...], numbers: tuple[Edge, ...]) -> frozenset[int]:
        """Where "one string" is a single string: everywhere, unless the talk says "the two string"."""
        numbered = [
            edge
            for edge in numbers
            if edge.symbol == "number"
            and edge.end < len(items)
            and (items[edge.end].text, items[edge.end].before) == (STRING, Break.NONE)
        ]
        others = [edge for edge in numbered if edge.value in range(2, MOST_STRINGS + 1)]
        by_number = [edge for edge in others if edge.start == 0 or items[edge.start - 1].text != INDEFINITE]
        if by_number:
            return frozenset()
        return frozenset(edge.start for edge in numbered if edge.value == 1)

    def _is_plural(self, item: Item) -> bool:
        """Whether the word looks like a noun in the plural, and is none of the verbs that end alike."""
        word = item.text
        ends = len(word) >= SHORTEST_PLURAL and word.endswith("s") and not word.endswith(("ss", "'s"))
        return ends and word.isalpha() and word not in self._no_things

    def _letter_cost(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> float:
        """ "a" is an article far more often than a letter, unless written or spoken as a name."""
        if items[at].text != "a" or items[at].is_name or self._is_in_row(items, at, numbers):
            return 0.0
        before, after = items[at - 1 : at] if at else (), items[at + 1 : at + 2]
        if any(item.text in self._accidentals and item.before == Break.NONE for item in after):
            return A_FLAT
        if any(item.text in self._pointing | self._open for item in before) or any(
            i.text in self._string for i in after
        ):
            return 0.0
        return ARTICLE

    def _is_in_row(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether the letter stands with its number beside another letter with its own: "a 3, d 2"."""

        def pairs(letter: int) -> bool:
            lettered = 0 <= letter < len(items) and items[letter].text in LETTERS
            return lettered and letter + 1 in numbers

        led = at > 2 and items[at - 3].text in self._before_string
        return pairs(at) and (pairs(at + 2) or (pairs(at - 2) and not led))


def commas(chart: Chart, match: Match, linking: frozenset[str]) -> int:
    """How many commas stand inside the match, those before linking words ("and") left out."""
    inside = chart.items[match.start + 1 : match.end]
    return sum(item.before >= Break.SOFT and item.text not in linking for item in inside)


def _vocabulary(grammar: Grammar) -> frozenset[str]:
    """Every word that the grammar's wordings use, and so knows."""
    wordings = grammar.wordings()
    return frozenset(leaf.text for t in wordings for leaf in leaves(t.node) if isinstance(leaf, Word))


def _number_readings(edge: Edge, pronoun: float) -> Iterator[Edge]:
    """A number as it stands, and as whatever else a number of its size may be."""
    yield edge
    value = edge.value
    if not isinstance(value, int):
        return
    if edge.symbol == "number" and value <= HIGHEST_FRET:
        yield replace(edge, symbol="fret_number", cost=edge.cost + pronoun)
    if edge.symbol == "number" and 1 <= value <= HIGHEST_STRING:
        beyond = BEYOND if value > MOST_STRINGS else 0.0
        yield replace(edge, symbol="string_number", cost=edge.cost + beyond)
    if edge.symbol == "number" and 1 <= value <= FINGERS:
        yield replace(edge, symbol="finger_number")
    if edge.symbol == "number" and value in DEGREES:
        yield replace(edge, symbol="degree_number")
    if edge.symbol == "number" and value >= BIG:
        yield replace(edge, symbol="big")
    if edge.symbol == "ordinal" and value <= MOST_STRINGS:
        yield replace(edge, symbol="string_ordinal")
    if edge.symbol == "ordinal" and FIRST_NTH <= value <= HIGHEST_FRET:
        yield replace(edge, symbol="fret_ordinal")


def _add_misheard(chart: Chart, misheard: Misheard) -> None:
    """Lets items be read as another word: a number or ordinal, a string's letter, or a plain word."""
    start, end, meant, cost = misheard.start, misheard.end, misheard.meant, misheard.cost
    heard = (f'"{chart.said(start, end)}" for "{meant}"',) if cost and not misheard.word else ()
    spoken = replace(chart.items[start], text=meant)
    numbers = [edge for edge in number_edges((spoken,)) if meant != "one"]
    for edge in numbers:
        for reading in _number_readings(edge, 0.0):
            chart.add(replace(reading, start=start, end=end, cost=reading.cost + cost, heard=heard))
    if len(meant) == 1 and meant.isalpha():
        chart.add(Edge(start, end, "letter", meant.upper(), cost, heard=heard))
    elif not numbers:
        chart.add(Edge(start, end, AS_WORD + meant, None, cost, heard=heard))


def _add_phrases(chart: Chart, index: Index[Phrase], bundle: Bundle, linking: frozenset[str]) -> None:
    hopeless: dict[int, int] = {}
    for at in chart.places(index.by_word, index.by_symbol):
        sentence = chart.sentence[at]
        if sentence not in hopeless:
            hopeless[sentence] = index.hopeless(chart.present[sentence])
        wanted = index.candidates(chart.words[at], chart.starting[at]) & ~hopeless[sentence]
        for place, match in bundle.found(chart, at, wanted):
            phrase, _ = index.wordings[place]
            if _names_a_string_twice(match):
                continue
            cost = phrase.cost + match.cost + PHRASE_COMMA * commas(chart, match, linking)
            value = _value(phrase, match)
            chart.add(Edge(match.start, match.end, phrase.name, value, cost, heard=match.heard))


def _names_a_string_twice(match: Match) -> bool:
    """Whether strings that are told together are one and the same: "the B, and B string open"."""
    named = {edge.name: edge.value for edge in match.slots if edge.name in TOGETHER}
    return len({*named.values()}) < len(named)


def _value(phrase: Phrase, match: Match) -> Value:
    """The phrase's own value with its slots put in; without one, the value of its only slot."""
    if phrase.value is None:
        return match.slots[0].value if match.slots else None
    if not isinstance(phrase.value, str) or "{" not in phrase.value:
        return phrase.value
    text = phrase.value
    if len(match.slots) == 1 and text == "{" + match.slots[0].name + "}":
        return match.slots[0].value
    for edge in match.slots:
        text = text.replace("{" + edge.name + "}", str(edge.value))
    return text
