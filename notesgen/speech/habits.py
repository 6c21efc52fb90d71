"""How one teacher puts things, over the whole talk: what a sentence leaves open goes by habit.

"The second" is a fret or a string; "7 on the B 8" told without a comma leaves open whose string it is.
"""

from __future__ import annotations

from collections.abc import Callable

from notesgen.grammar.model import WordLists
from notesgen.speech.chart import Chart
from notesgen.speech.items import Break, Item

STRINGS = ("on", "string", "bare_string")
NUMBERS = ("fret_number", "ordinal")
OFTEN = 4  # times that "fifth fret" is said before it is a habit
HARDLY = 8  # ... so many against one "fifth string"


def names_ahead(chart: Chart, words: WordLists) -> bool:
    """Whether strings are named ahead of their frets: "on the B, 7" said often, "7 on the B" hardly ever.

    Only a string that stands beside one fret tells it.
    """
    ahead = behind = end = 0
    for at in range(len(chart.items)):
        edges = [edge for kind in STRINGS for edge in chart.edges(at, kind)]
        if at < end or not edges:
            continue
        end = max(edge.end for edge in edges)
        before, after = _ends_fret(chart, at, words), begins_fret(chart, end)
        ahead += after and not before
        behind += before and not after
    return ahead >= OFTEN and behind * HARDLY <= ahead


def _ends_fret(chart: Chart, at: int, words: WordLists) -> bool:
    """Whether a number ends right before an item, or "fret" behind one does."""
    if at == 0 or chart.items[at].before >= Break.SOFT:
        return False
    number = at - 2 if chart.items[at - 1].text in words.fret else at - 1
    return number >= 0 and any(chart.edges(number, kind) for kind in NUMBERS)


def begins_fret(chart: Chart, at: int) -> bool:
    """Whether a number begins at an item."""
    if at == len(chart.items) or chart.items[at].before >= Break.HARD:
        return False
    return any(chart.edges(at, kind) for kind in NUMBERS)


def counts_frets(items: tuple[Item, ...], words: WordLists, is_ordinal: Callable[[int], bool]) -> bool:
    """Whether ordinals are frets in this talk: "fifth fret" is said often, "fifth string" hardly ever.

    `is_ordinal` tells so of the item at an index.
    """
    following = [items[at + 1].text for at in range(len(items) - 1) if is_ordinal(at)]
    frets = sum(word in words.fret for word in following)
    strings = sum(word in words.string for word in following)
    return frets >= OFTEN and strings * HARDLY <= frets
