"""Items to mentions: the chart filled with every reading of numbers, letters, misheard words and phrases."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from notesgen.grammar.index import Index, in_order
from notesgen.grammar.model import Grammar, Phrase
from notesgen.grammar.template import Word, leaves
from notesgen.speech.chart import AS_WORD, Chart, Edge, Match, Value
from notesgen.speech.items import Break, Item
from notesgen.speech.matching import Bundle
from notesgen.speech.mishearings import Misheard, Mishearings
from notesgen.speech.numbers import HIGHEST_FRET, number_edges

PHRASE_COMMA = 0.3  # cost of a comma inside a phrase such as a string's name
PRONOUN = 1.2  # cost of reading "one" as a fret
IN_A_ROW = 0.3  # ... right behind another, at the end of "to one", with its string: "one on the B"
ARTICLE = 0.5  # cost of reading "a" as a letter
A_FLAT = 0.1  # ... before "flat" or the like: a note, more often than "a sharp attack"
SHORTEST_PLURAL = 4  # letters of the shortest word that may be a noun in the plural
MOST_STRINGS = 6  # the highest number by which strings are called
HIGHEST_STRING = 9  # ... by which they may be called by mistake, or on other instruments
BEYOND = 0.5  # cost of reading such a number as a string's: "on the A string 7" is a fret
FIRST_NTH = 3  # "the first" and "the second" are hardly ever frets by themselves
FINGERS = 5  # of one hand
BIG = 40  # a number too big for a fret: a tempo, an age
DEGREES = frozenset((1, 2, 3, 4, 5, 6, 7, 9, 11, 13))  # of a scale, and those that chords add

_LINKS = frozenset({"and", "then", "or", "but"})
_LETTERS = frozenset("abcdefg")


class Mentions:
    """The phrases and mishearings of a grammar, ready to be found."""

    def __init__(self, grammar: Grammar) -> None:
        indices = [Index((p, template) for p in group for template in p.say) for group in in_order(grammar)]
        self._phrases = [(index, Bundle([t.node for _, t in index.wordings])) for index in indices]
        self._pointing = frozenset((*grammar.words.pointing, *grammar.words.article))
        self._open = frozenset(grammar.words.open)
        self._reaching = frozenset(grammar.words.reaching)
        self._moving_on = frozenset(grammar.words.moving_on)
        slurs = grammar.words.hammering + grammar.words.pulling + grammar.words.sliding
        openers = grammar.words.clause_openers + grammar.words.sentence_openers
        self._slurs = frozenset(slurs)
        self._opening = frozenset((*_LINKS, *slurs, *openers))
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
        for edge in numbers:
            named = self._follows_name(items, edge.start, ordinals)
            for reading in _number_readings(edge, self._pronoun_cost(items, edge.start, places)):
                if not (named and reading.symbol == "string_number"):
                    chart.add(reading)
        for at, item in enumerate(items):
            if item.text in _LETTERS:
                chart.add(Edge(at, at + 1, "letter", item.text.upper(), self._letter_cost(items, at)))
            elif at not in so_many and self._is_plural(item):
                chart.add(Edge(at, at + 1, "things", None))
        for misheard in self._mishearings.find(items):
            _add_misheard(chart, misheard)
        for index, bundle in self._phrases:
            _add_phrases(chart, index, bundle)
        return chart

    def _follows_name(self, items: tuple[Item, ...], at: int, ordinals: frozenset[int]) -> bool:
        """Whether "string" before the number already has its name: in "the D string, five" 5 is a fret."""
        if at < 2 or items[at - 1].text not in self._string or items[at - 1].before > Break.NONE:
            return False
        if items[at - 1].text == "strings":
            return False  # "fret number one, strings 6 and 5": several are named by what follows
        name = items[at - 2].text
        return name in _LETTERS or at - 2 in ordinals or name in self._string_names

    def _is_plural(self, item: Item) -> bool:
        """Whether the word looks like a noun in the plural, and is none of the verbs that end alike."""
        word = item.text
        ends = len(word) >= SHORTEST_PLURAL and word.endswith("s") and not word.endswith(("ss", "'s"))
        return ends and word.isalpha() and word not in self._no_things

    def _letter_cost(self, items: tuple[Item, ...], at: int) -> float:
        """ "a" is an article far more often than a letter, unless written or spoken as a name."""
        if items[at].text != "a" or items[at].is_name:
            return 0.0
        before, after = items[at - 1 : at] if at else (), items[at + 1 : at + 2]
        if any(item.text in self._accidentals and item.before == Break.NONE for item in after):
            return A_FLAT
        if any(item.text in self._pointing | self._open for item in before) or any(
            i.text in self._string for i in after
        ):
            return 0.0
        return ARTICLE

    def _pronoun_cost(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> float:
        """What it costs to read "one" as a fret: much after "that" or "the", little in a row of places."""
        if items[at].text != "one":
            return 0.0
        if at > 0 and items[at - 1].text in self._pointing:
            return PRONOUN * 2
        before = at > 0 and items[at].before < Break.HARD and self._is_place(items, at - 1, numbers)
        led = at > 0 and self._leads_to_place(items, at) and self._ends_clause(items, at)
        row = before or self._begins_row(items, at, numbers) or self._is_slurred(items, at, numbers)
        return IN_A_ROW if row or led or _on_a_string(items, at, numbers) else PRONOUN

    def _leads_to_place(self, items: tuple[Item, ...], at: int) -> bool:
        """Whether "to" or the name of a string stands before: "pull off to one", "B string, one"."""
        word = items[at - 1].text
        if word in self._reaching or (word == "on" and items[at].before == Break.NONE):
            return True
        if items[at].before == Break.NONE and at > 1 and items[at - 2].text in self._pointing:
            return False  # "the G one" is a string
        names_string = word in self._string or (word in _LETTERS and word != "a")
        return names_string and items[at].before < Break.HARD

    def _begins_row(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether another place goes on behind "then one": "then one and two", "then one then two"."""
        if at == 0 or items[at - 1].text not in self._moving_on or items[at].before > Break.NONE:
            return False
        behind = at + 1
        while behind < len(items) and items[behind].text in _LINKS:
            behind += 1
        return at + 1 < behind < len(items) and self._is_place(items, behind, numbers)

    def _is_slurred(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether "one" is where a slur begins or ends: "one hammer two", "hammer one"."""
        begins = at + 2 in numbers and items[at + 1].text in self._slurs
        ends = at > 0 and items[at - 1].text in self._slurs and items[at].before < Break.HARD
        return begins or (ends and self._ends_clause(items, at))

    def _ends_clause(self, items: tuple[Item, ...], at: int) -> bool:
        """Whether nothing follows that makes "one" a pronoun or a count: "one of them", "one string"."""
        if at + 1 == len(items) or items[at + 1].before >= Break.SOFT:
            return True
        following, behind = ([item.text for item in items[at + n : at + n + 1]] for n in (1, 2))
        next_string = behind == ["string"] and following[0] in _LETTERS
        return next_string or following[0] in self._opening or following == ["on"]

    def _is_place(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether the item may name a fret: a number, or "open"."""
        return at in numbers or items[at].text in self._open


def _on_a_string(items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
    """Whether "one" opens its clause, or goes on after "and", and "on the" or the like follows."""
    opens = at == 0 or items[at].before >= Break.SOFT or items[at - 1].text in (*_LINKS, "with")
    following = [item.text for item in items[at + 1 : at + 3]]
    named = following[:1] == ["on"] and following[1:] in (["the"], ["string"])
    return opens and named and (at + 3 not in numbers or following[1] == "string")


def words_at(chart: Chart, at: int) -> tuple[str, ...]:
    """The word at an item, and those that it may be a mishearing of."""
    meant = (symbol[len(AS_WORD) :] for symbol in chart.starting[at] if symbol.startswith(AS_WORD))
    return (chart.items[at].text, *meant)


def commas(chart: Chart, match: Match) -> int:
    """How many commas stand inside the match, those before "and" and the like left out."""
    inside = chart.items[match.start + 1 : match.end]
    return sum(item.before >= Break.SOFT and item.text not in _LINKS for item in inside)


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


def _add_phrases(chart: Chart, index: Index[Phrase], bundle: Bundle) -> None:
    for at in chart.places(index.by_word, index.by_symbol):
        wanted = index.candidates(words_at(chart, at), chart.starting[at])
        for place, match in bundle.found(chart, at, wanted):
            phrase, _ = index.wordings[place]
            cost = phrase.cost + match.cost + PHRASE_COMMA * commas(chart, match)
            value = _value(phrase, match)
            chart.add(Edge(match.start, match.end, phrase.name, value, cost, heard=match.heard))


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
