"""Titles as they were said, read for what they name: "Four, this is where" as number four."""

from __future__ import annotations

import re

from msgspec import Struct

CARDINALS = (
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
    "twenty",
)
ORDINALS = (
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
    "thirteenth",
    "fourteenth",
    "fifteenth",
    "sixteenth",
    "seventeenth",
    "eighteenth",
    "nineteenth",
    "twentieth",
)
NUMBERS = {
    word: number
    for number, words in enumerate(zip(CARDINALS, ORDINALS, strict=True), start=1)
    for word in (*words, str(number))
}
VAGUE = (
    "bit",
    "chunk",
    "example",
    "idea",
    "line",
    "number",
    "one",
    "part",
    "phrase",
    "piece",
    "section",
    "thing",
)
"""What a part of any lesson may be called. Alone, it names nothing."""
NOUNS = frozenset({*VAGUE, "exercise", "figure", "lick", "passage", "pattern", "riff", "run"})
LASTS = frozenset({"last", "final"})
# Words that lead up to a title, and words with which the sentence goes on behind it.
BEFORE = frozenset(
    {
        "and",
        "here",
        "here's",
        "is",
        "next",
        "now",
        "okay",
        "ok",
        "on",
        "right",
        "so",
        "the",
        "then",
        "this",
        "to",
        "up",
        "well",
    }
)
BEHIND = frozenset(
    {
        "and",
        "goes",
        "here",
        "is",
        "it",
        "it's",
        "my",
        "starts",
        "so",
        "that",
        "that's",
        "the",
        "then",
        "this",
        "where",
        "which",
    }
)
LONGEST = 60  # characters of a title


class Heading(Struct, frozen=True):
    """What a title says. `own` is a title that stands as it is; else `number`, `noun` and `last` say it.

    `ordinal` tells "third part" from "part three"; `clear` that noun and number were both said, nothing else.
    """

    number: int | None = None
    noun: str = ""
    last: bool = False
    ordinal: bool = False
    clear: bool = False
    own: str = ""


UNNAMED = Heading()


def read_heading(title: str) -> Heading:
    """What the title names. A number of the draft's own ("Phrase 3") names nothing, nor does a vague noun."""
    text = " ".join(title.split())
    if not text or re.fullmatch(r"Phrase \d+", text):
        return UNNAMED
    words = [_bare(word) for word in text.split()]
    start = next((at for at, word in enumerate(words) if word not in BEFORE), len(words))
    end = next((at for at in range(start, len(words)) if not _counts(words[at])), len(words))
    head = words[start:end]
    if not head or (end < len(words) and words[end] not in BEHIND):
        return Heading(own=_shortened(text))
    return _counted(head, clean=len(head) == len(words))


def _counted(head: list[str], clean: bool) -> Heading:
    """The heading that number words and nouns make."""
    nouns = [word for word in head if word in NOUNS and word not in ("one", "number")]
    numbers = [word for at, word in enumerate(head) if word in NUMBERS and not _is_pronoun(head, at)]
    values = {NUMBERS[word] for word in numbers}
    number = values.pop() if len(values) == 1 else None
    ordinal = bool(numbers) and numbers[-1] in ORDINALS
    return Heading(
        number=number,
        noun=nouns[-1] if nouns else "",
        last=number is None and bool(LASTS & set(head)),
        ordinal=ordinal,
        clear=clean and bool(nouns) and bool(numbers),
    )


def _is_pronoun(head: list[str], at: int) -> bool:
    """Whether "one" stands for a noun: "the last one", "the fourth one"."""
    before = head[at - 1] if at else ""
    return head[at] == "one" and before in (*LASTS, *ORDINALS)


def _counts(word: str) -> bool:
    return word in NUMBERS or word in NOUNS or word in LASTS


def _bare(word: str) -> str:
    """The word in small letters, without punctuation and the 's of a sentence that goes on."""
    plain = word.lower().strip(" .,;:!?\"'()").replace("’", "'")
    return plain if plain in BEFORE | BEHIND else plain.removesuffix("'s")


def _shortened(text: str) -> str:
    """The title without what leads up to it and without 's, cut at a word where it is too long to be one."""
    words = text.split()
    while len(words) > 1 and _bare(words[0]) in BEFORE:
        words.pop(0)
    shown = re.sub(r"['’]s$", "", " ".join(words).strip(" ,;"))
    if len(shown) > LONGEST:
        shown = shown[: LONGEST - 1].rsplit(" ", 1)[0].rstrip(" ,;:") + "…"
    return shown[:1].upper() + shown[1:]
