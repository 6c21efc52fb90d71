"""Words that captions write in place of the field's own: from the grammar's table, and by near-misses.

A near-miss is a word that is no word of the grammar and lies close to one of the field's (rapidfuzz's
normalised Levenshtein similarity). Either way the reading costs something, so that it is taken only where
the neighbours make it likely.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct
from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from notesgen.grammar.model import Mishearing
from notesgen.grammar.tokens import tokens
from notesgen.speech.items import Break, Item

CLOSE = 0.8  # similarity from which a word may be a near-miss
LEAST_LETTERS = 5  # shorter words are near-misses of too many others
NEAR_MISS = 1.0  # cost of reading one


class Misheard(Struct, frozen=True):
    """Items `start` to `end` may have been meant as another word."""

    start: int
    end: int
    meant: str
    cost: float
    word: bool = False  # no slip: the word of another English


class Mishearings:
    """The table and the field's words of one grammar, ready to look up."""

    def __init__(
        self, table: Iterable[Mishearing], field_words: Iterable[str], known: frozenset[str]
    ) -> None:
        self._by_first: dict[str, list[tuple[tuple[str, ...], Mishearing]]] = {}
        for entry in table:
            for words in (entry.heard,) if isinstance(entry.heard, str) else entry.heard:
                heard = tuple(token for chunk in words.split() for token in tokens(chunk))
                self._by_first.setdefault(heard[0], []).append((heard, entry))
        self._field_words = [word for word in field_words if len(word) >= LEAST_LETTERS]
        self._known = known
        self._near: dict[str, str | None] = {}

    def find(self, items: tuple[Item, ...]) -> Iterator[Misheard]:
        """Every place where something else may have been meant."""
        yield from self._listed(items)
        for at, item in enumerate(items):
            near = self._near_miss(item.text)
            if near:
                yield Misheard(at, at + 1, near, NEAR_MISS)

    def _listed(self, items: tuple[Item, ...]) -> Iterator[Misheard]:
        """What the table lists; of the words that must be known from the same talk only those that are."""
        sure: set[tuple[str, ...]] = set()
        waiting: list[tuple[tuple[str, ...], Misheard]] = []
        for at, item in enumerate(items):
            for heard, entry in self._by_first.get(item.text, ()):
                end = at + len(heard)
                if tuple(i.text for i in items[at:end]) != heard or not _may_stand(items, at, end, entry):
                    continue
                found = Misheard(at, end, entry.meant, entry.cost, entry.word)
                if entry.known:
                    waiting.append((heard, found))
                    continue
                sure |= {heard} if entry.word else set()
                yield found
        yield from (found for heard, found in waiting if heard in sure)

    def _near_miss(self, text: str) -> str | None:
        if len(text) < LEAST_LETTERS or text in self._known or not text.isalpha():
            return None
        if text not in self._near:
            best = process.extractOne(
                text, self._field_words, scorer=Levenshtein.normalized_similarity, score_cutoff=CLOSE
            )
            self._near[text] = best[0] if best else None
        return self._near[text]


def _may_stand(items: tuple[Item, ...], start: int, end: int, entry: Mishearing) -> bool:
    """Whether the words around items `start` to `end` let them be misheard; a pause is as good as a word."""
    behind = items[start - 1].text if start else ""
    if behind in entry.not_after or (entry.after and behind not in entry.after):
        return False
    pauses = end == len(items) or items[end].before >= Break.SOFT
    if not pauses and items[end].text in entry.not_before:
        return False
    return not entry.before or pauses or items[end].text in entry.before
