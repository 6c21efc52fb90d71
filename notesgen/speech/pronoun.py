""" "One": a fret, or a pronoun as in "this one"? Told by the words around it."""

from __future__ import annotations

from itertools import takewhile

from notesgen.grammar.model import WordLists
from notesgen.speech.items import Break, Item

LETTERS = frozenset("abcdefg")
PRONOUN = 1.2  # cost of reading "one" as a fret
IN_A_ROW = 0.3  # ... right behind another, at the end of "to one", with its string: "one on the B"
ROW = 3  # numbers from which a row may count, or tell frets
FINGER_WITHIN = 8  # items behind "one" within which its finger is named: "one with your first finger"


class Pronoun:
    """What it costs to read "one" as a fret, by the words of a grammar."""

    def __init__(self, words: WordLists) -> None:
        slurs = words.hammering + words.pulling + words.sliding
        openers = words.clause_openers + words.sentence_openers
        self._one, self._two = frozenset(words.one), frozenset(words.counted_next)
        self._linking, self._there = frozenset(words.linking), frozenset(words.there)
        self._on, self._before_string = frozenset(words.on_a_string), frozenset(words.before_a_string)
        self._with, self._between = frozenset(words.with_a_finger), frozenset(words.between_frets)
        self._pointing = frozenset((*words.pointing, *words.article))
        self._article = frozenset(words.article)
        self._open = frozenset(words.open)
        self._reaching = frozenset(words.reaching)
        self._string = frozenset(words.string)
        self._slurs = frozenset(slurs)
        self._fingering = frozenset(words.fingering)
        self._going_back = frozenset(words.going_back)
        self._climbing = frozenset((*words.rising, *words.falling))
        self._opening = frozenset((*words.linking, *slurs, *openers))
        self._moving_on = frozenset(words.moving_on)
        self._leading = frozenset((*self._opening, *words.moving_on, *words.source, *words.leading_to_fret))

    def cost(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> float:
        """The cost at an item: much after "that" or "the", little in a row of places. 0 for other words."""
        if items[at].text not in self._one:
            return 0.0
        if at > 0 and items[at - 1].text in self._pointing:
            return IN_A_ROW if self._is_the_fret(items, at, numbers) else PRONOUN * 2
        before = at > 0 and items[at].before < Break.HARD and self._is_place(items, at - 1, numbers)
        led = at > 0 and self._leads_to_place(items, at) and self._ends_clause(items, at)
        row = before or self._begins_row(items, at, numbers) or self._is_slurred(items, at, numbers)
        row = row or self._goes_on(items, at, numbers) or self._is_placed(items, at)
        row = row or self._is_joined(items, at, numbers)
        return IN_A_ROW if row or led or self._on_a_string(items, at, numbers) else PRONOUN

    def _is_the_fret(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether "the one" is a fret: among others so told, on a string gone to, with its finger."""
        if items[at - 1].text not in self._article:
            return False
        if self._in_list_of_the(items, at, numbers) or self._is_the_one_of_a_string(items, at, numbers):
            return True
        gone_to = self._is_on(items, at + 1) and self._is_gone_to(items, at - 2)
        gone_to = gone_to or (self._climbs_to(items, at - 2) and self._ends_clause(items, at))
        return gone_to or self._takes_finger(items, at) or self._goes_on(items, at, numbers)

    def _climbs_to(self, items: tuple[Item, ...], at: int) -> bool:
        """Whether "up to" or "down to" ends at the item, as people say who go from fret to fret."""
        return at > 0 and items[at].text in self._reaching and items[at - 1].text in self._climbing

    def _is_gone_to(self, items: tuple[Item, ...], at: int) -> bool:
        """Whether "to" stands at the item, but not "back to", which goes to a note that is known."""
        led = at > 0 and items[at].text in self._reaching
        return led and items[at - 1].text not in self._going_back

    def _takes_finger(self, items: tuple[Item, ...], at: int) -> bool:
        """Whether a finger is named for it: "one with your first finger", "... on the B with the index"."""
        behind = items[at + 1 : at + 1 + FINGER_WITHIN]
        said = [item.text for item in takewhile(lambda item: item.before == Break.NONE, behind)]
        begins = bool(self._with & {*said[:1]}) or (self._is_on(items, at + 1) and bool(self._with & {*said}))
        return begins and bool(self._fingering & {*said})

    def _goes_on(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether it ends a clause behind another fret and "then": "three, then one, and open"."""
        start = at - 1 if items[at - 1].text in self._article else at
        if start < 1 or items[start - 1].text not in self._moving_on or not self._ends_clause(items, at):
            return False
        ahead = self._skipped(items, start - 2, -1) if items[start - 2].text in self._linking else start - 2
        return ahead >= 0 and self._is_place(items, ahead, numbers)

    def _is_joined(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether it ends a clause, joined to another fret: "three and one"."""
        joined = at > 1 and items[at - 1].text in self._linking and items[at - 1].before < Break.HARD
        return joined and self._is_place(items, at - 2, numbers) and self._ends_clause(items, at)

    def _is_placed(self, items: tuple[Item, ...], at: int) -> bool:
        """Whether it opens its clause, and a word of place or a finger follows: "and one there as well"."""
        if not (at == 0 or items[at].before >= Break.SOFT or items[at - 1].text in self._linking):
            return False
        following = items[at + 1 : at + 2]
        there = any(item.text in self._there and item.before == Break.NONE for item in following)
        return there or self._takes_finger(items, at)

    def _in_list_of_the(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether it is among frets told with the article: "the one, the four", "the three to the one"."""
        if items[at - 1].text not in self._article:
            return False
        behind = self._skipped(items, at + 1, 1)
        follows = (
            behind + 1 in numbers
            and items[behind].text in self._article
            and not self._is_so_many(items, behind + 1)
        )
        ahead = self._skipped(items, at - 2, -1)
        return follows or (ahead in numbers and ahead > 0 and items[ahead - 1].text in self._article)

    def _is_the_one_of_a_string(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether its string stands right before, and no more is said of it: "on the A string, the one"."""
        the = items[at - 1]
        if at < 2 or the.text not in self._article or the.before >= Break.HARD or at + 1 in numbers:
            return False  # "the A string, just the one, 7" is a single note
        return items[at - 2].text in self._string and self._ends_clause(items, at)

    def _leads_to_place(self, items: tuple[Item, ...], at: int) -> bool:
        """Whether "to" or the name of a string stands before: "pull off to one", "B string, one"."""
        word = items[at - 1].text
        if word in self._reaching or (word in self._on and items[at].before == Break.NONE):
            return True
        if items[at].before == Break.NONE and at > 1 and items[at - 2].text in self._pointing:
            return False  # "the G one" is a string
        is_letter = word in LETTERS and (word != "a" or items[at].before == Break.SOFT)
        names_string = word in self._string or is_letter
        return names_string and items[at].before < Break.HARD

    def _begins_row(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether another place goes on behind: "from one to three", "so one, four". "One, two" counts."""
        if self._is_row_on_a_string(items, at, numbers):
            return True
        opens = at == 0 or items[at].before >= Break.SOFT or items[at - 1].text in self._leading
        if not (opens or self._leads_to_place(items, at)):
            return False
        behind = self._skipped(items, at + 1, 1)
        if behind == len(items) or not self._is_place(items, behind, numbers):
            return False
        if behind == at + 1 and items[behind].text in self._open:
            return False  # "one open string"
        counting = (
            items[behind].text in self._two and behind == at + 1 and not self._leads_to_place(items, at)
        )
        counted = items[behind].text in self._one or counting
        return not counted and not self._is_so_many(items, behind)

    def _is_so_many(self, items: tuple[Item, ...], at: int) -> bool:
        """Whether the number counts what is named behind it: "one, four times"."""
        behind = items[at + 1 : at + 2]
        return any(item.before == Break.NONE and item.text.endswith("s") for item in behind)

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
        next_string = bool(self._string & {*behind}) and following[0] in LETTERS
        return next_string or following[0] in self._opening | self._on | self._with

    def _is_place(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether the item may name a fret: a number, or "open"."""
        return at in numbers or items[at].text in self._open

    def _skipped(self, items: tuple[Item, ...], at: int, step: int) -> int:
        """The next item, or with `step` -1 the last, that is no word of going on: "and", "to", "back to"."""
        while 0 <= at < len(items) and items[at].text in self._between:
            at += step
        return at

    def _is_row_on_a_string(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether it begins a row that a string closes, and counts nothing: "one, two, three on the G"."""
        if not self._two & {item.text for item in items[at + 1 : at + 2]}:
            return False  # "box one, seven and ten on the low E"
        end = at
        while end in numbers:
            end += 1
        closed = self._names_string(items, end, numbers) and items[end].before == Break.NONE
        return end - at >= ROW and closed

    def _names_string(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether "on the" or the like stands there, and no count of strings: "on the two strings"."""
        if not self._is_on(items, at):
            return False
        pointed = items[at + 1].text in self._pointing and items[at + 2 : at + 3]
        that_one = bool(pointed) and items[at + 2].text in self._one
        return at + 2 not in numbers or items[at + 1].text in self._string or that_one

    def _is_on(self, items: tuple[Item, ...], at: int) -> bool:
        """Whether "on the" or the like stands there in one breath."""
        said = items[at : at + 2]
        in_one_breath = all(item.before == Break.NONE for item in said[1:])
        on = bool(self._on & {item.text for item in said[:1]})
        return on and in_one_breath and said[-1].text in self._before_string

    def _on_a_string(self, items: tuple[Item, ...], at: int, numbers: frozenset[int]) -> bool:
        """Whether "one" opens its clause, or goes on after "and", and "on the" or the like follows."""
        opens = at == 0 or items[at].before >= Break.SOFT or items[at - 1].text in self._linking | self._with
        return opens and self._names_string(items, at + 1, numbers)
