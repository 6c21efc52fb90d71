"""The spoken words behind items: quotes, times and the stretches where the teacher plays."""

from __future__ import annotations

from notesgen.captions.transcript import Transcript
from notesgen.speech.items import Item

DEMO = 3.0  # seconds without talk that count as playing


class Talk:
    """One transcript and its items."""

    def __init__(self, transcript: Transcript, items: tuple[Item, ...]) -> None:
        self._words = transcript.words
        self._items = items
        self.demos = tuple((g.start, g.end) for g in transcript.gaps if g.label or g.end - g.start >= DEMO)

    def start(self, item: int) -> float:
        """When the item is spoken (seconds)."""
        return self._items[item].start

    def end(self, item: int) -> float:
        """When the item before `item` ends (seconds)."""
        return self._items[max(0, item - 1)].end

    def quote(self, start: int, end: int, around: int = 0) -> str:
        """The words of items `start` up to `end`, as the captions have them, with so many words around."""
        first = max(0, self._items[start].word - around)
        last = min(len(self._words), self._items[max(start, end - 1)].word + 1 + around)
        return " ".join(word.text for word in self._words[first:last])
