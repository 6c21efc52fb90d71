"""What a teacher's ordinals count, over the whole talk: "the second" is a fret or a string by habit."""

from __future__ import annotations

from collections.abc import Callable

from notesgen.grammar.model import WordLists
from notesgen.speech.items import Item

OFTEN = 4  # times that "fifth fret" is said before it is a habit
HARDLY = 8  # ... so many against one "fifth string"


def counts_frets(items: tuple[Item, ...], words: WordLists, is_ordinal: Callable[[int], bool]) -> bool:
    """Whether ordinals are frets in this talk: "fifth fret" is said often, "fifth string" hardly ever.

    `is_ordinal` tells so of the item at an index.
    """
    following = [items[at + 1].text for at in range(len(items) - 1) if is_ordinal(at)]
    frets = sum(word in words.fret for word in following)
    strings = sum(word in words.string for word in following)
    return frets >= OFTEN and strings * HARDLY <= frets
