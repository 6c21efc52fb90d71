"""Where sentences and stretches of talk begin and end, by item."""

from __future__ import annotations

from bisect import bisect_right

from notesgen.speech.items import Break, Item


class Sentences:
    """Sentence numbers of items, counted from 0, and the gaps between stretches of talk."""

    def __init__(self, items: tuple[Item, ...]) -> None:
        self._starts = [at for at, item in enumerate(items) if item.before >= Break.HARD or at == 0]
        self._gaps = [at for at, item in enumerate(items) if item.before >= Break.GAP]
        self._size = len(items)

    def of(self, item: int) -> int:
        """The sentence that the item is in."""
        return bisect_right(self._starts, item) - 1

    def start(self, sentence: int) -> int:
        """The first item of the sentence."""
        return self._starts[sentence]

    def end(self, sentence: int) -> int:
        """One past the last item of the sentence."""
        return self._starts[sentence + 1] if sentence + 1 < len(self._starts) else self._size

    def stretch(self, item: int) -> int:
        """Which stretch of talk between gaps the item is in."""
        return bisect_right(self._gaps, item)
