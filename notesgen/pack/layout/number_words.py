"""Numbers written as they were: word for word, digit for digit, ordinal for ordinal."""

from __future__ import annotations

import re

from notesgen.pack.layout.headings import CARDINALS, ORDINALS

TENS = {
    20: "twenty",
    30: "thirty",
    40: "forty",
    50: "fifty",
    60: "sixty",
    70: "seventy",
    80: "eighty",
    90: "ninety",
}
_ENDINGS = {1: "st", 2: "nd", 3: "rd"}


def like(text: str, number: int) -> str:
    """The number in the form of `text`: 10 like "9" is "10", like "nine" "ten", like "ninth" "tenth"."""
    plain = text.lower()
    if re.fullmatch(r"\d+", plain):
        return str(number)
    if re.fullmatch(r"\d+(st|nd|rd|th)", plain):
        return f"{number}{_ending(number)}"
    told = ordinal(number) if _is_ordinal(plain) else cardinal(number)
    return told.capitalize() if text[:1].isupper() else told


def cardinal(number: int) -> str:
    """ "twenty-two"; digits from a hundred on."""
    if number == 0:
        return "zero"
    if number <= len(CARDINALS):
        return CARDINALS[number - 1]
    tens, rest = number - number % 10, number % 10
    if tens not in TENS:
        return str(number)
    return TENS[tens] + (f"-{CARDINALS[rest - 1]}" if rest else "")


def ordinal(number: int) -> str:
    """ "twenty-second"; digits from a hundred on."""
    if 1 <= number <= len(ORDINALS):
        return ORDINALS[number - 1]
    tens, rest = number - number % 10, number % 10
    if tens not in TENS:
        return f"{number}{_ending(number)}"
    return f"{TENS[tens]}-{ORDINALS[rest - 1]}" if rest else f"{TENS[tens][:-1]}ieth"


def _is_ordinal(word: str) -> bool:
    return re.split(r"[\s-]", word)[-1] in ORDINALS or word.endswith("ieth")


def _ending(number: int) -> str:
    return "th" if number % 100 in (11, 12, 13) else _ENDINGS.get(number % 10, "th")
