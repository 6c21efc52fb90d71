"""Numbers in the talk: digits, number words, ordinals, plurals, and digits that captions ran together."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from msgspec import Struct
from text_to_num import find_numbers

from notesgen.speech.chart import Edge
from notesgen.speech.items import Break, Item

HIGHEST_FRET = 24
LONGEST_RUN = 8  # digits
WIDEST_LEAP = 5  # frets between neighbours in digits run together

LARGEST = 10**LONGEST_RUN - 1  # what is longer is no number that a lesson speaks of

_DIGITS = re.compile(rf"\d{{1,{LONGEST_RUN}}}")
_DECIMAL = re.compile(rf"\d{{0,{LONGEST_RUN}}}\.\d{{1,{LONGEST_RUN}}}")
_ORDINAL = re.compile(rf"(\d{{1,{LONGEST_RUN}}})(?:st|nd|rd|th)")
_PLURAL = re.compile(rf"(\d{{1,{LONGEST_RUN}}})s")
_SMALL = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven")
_TEENS = ("twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen")
_WORD_PLURALS = {
    word + ("es" if word.endswith("x") else "s"): value
    for value, word in enumerate(_SMALL + _TEENS)
    if word != "one"  # "the ones" is a pronoun
}


_ZERO = "zero"
_PRONOUN = "ones"  # "the easy ones"


class _Spoken(Struct, frozen=True):
    """An item as text_to_num's parser wants to see it: the names of the methods are the parser's."""

    item: Item

    def text(self) -> str:
        return self.item.text

    def nt_separated(self, previous: _Spoken) -> bool:
        return self.item.before >= Break.SOFT

    def not_a_number_part(self) -> bool:
        return False


def number_edges(items: tuple[Item, ...]) -> Iterator[Edge]:
    """Edges `number`, `ordinal`, `plural` (all with the value) and `run` (a tuple of frets)."""
    for at, item in enumerate(items):
        if _DIGITS.fullmatch(item.text):
            yield Edge(at, at + 1, "number", int(item.text))
            if int(item.text) > HIGHEST_FRET and (run := split_run(item.text)):
                yield Edge(at, at + 1, "run", run)
        elif _DECIMAL.fullmatch(item.text):
            yield Edge(at, at + 1, "number", float(item.text))
        elif found := _ORDINAL.fullmatch(item.text):
            yield Edge(at, at + 1, "ordinal", int(found[1]))
        elif found := _PLURAL.fullmatch(item.text):
            yield Edge(at, at + 1, "plural", int(found[1]))
        elif item.text in _WORD_PLURALS:
            yield Edge(at, at + 1, "plural", _WORD_PLURALS[item.text])
    last_end = -1
    for found_number in find_numbers([_Spoken(item) for item in items], "en", threshold=0.0):
        word = items[found_number.start].text
        # "two fives" is a count and a fret, not two frets
        counted = word in _WORD_PLURALS and found_number.start == last_end
        last_end = found_number.end
        if found_number.value > LARGEST or word == _PRONOUN or counted:
            continue
        symbol = "ordinal" if found_number.is_ordinal else "number"
        start = found_number.start
        while found_number.end - start > 1 and items[start].text == _ZERO:
            yield Edge(start, start + 1, "number", 0)  # "zero zero three" are three frets
            start += 1
        yield Edge(start, found_number.end, symbol, int(found_number.value))


def split_run(digits: str) -> tuple[int, ...] | None:
    """The likeliest frets behind digits run together: "810" is 8 10. None where no split gives frets.

    Likeliest is the split with the smallest leaps, since runs of frets move by small steps.
    """
    if len(digits) > LONGEST_RUN or digits.startswith("0"):
        return None
    splits = [split for split in _splits(digits) if len(split) > 1 and _is_smooth(split)]
    return min(splits, key=_leaps, default=None)


def _splits(digits: str) -> Iterator[tuple[int, ...]]:
    if not digits:
        yield ()
    for size in (1, 2):
        head = digits[:size]
        if len(head) == size and not (size > 1 and head.startswith("0")) and int(head) <= HIGHEST_FRET:
            for rest in _splits(digits[size:]):
                yield (int(head), *rest)


def _is_smooth(frets: tuple[int, ...]) -> bool:
    return all(abs(b - a) <= WIDEST_LEAP for a, b in pairwise(frets)) and 0 not in frets


def _leaps(frets: tuple[int, ...]) -> tuple[int, int]:
    return sum(abs(b - a) for a, b in pairwise(frets)), len(frets)
