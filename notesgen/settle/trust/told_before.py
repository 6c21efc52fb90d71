"""Whether a note stands in a row of frets that was told before, on whatever strings."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import Fret

Frets = tuple[Fret, ...]


class ToldBefore:
    """The rows of `size` notes of one lesson: `frets` has those of each note, in playing order."""

    def __init__(self, frets: Sequence[Frets], size: int) -> None:
        self._frets, self._size = tuple(frets), size
        self._first: dict[tuple[Frets, ...], int] = {}
        for start in range(len(frets) - size + 1):
            self._first.setdefault(self._row(start), start)

    def holds(self, at: int, since: int) -> bool:
        """Whether a row with note `at` in it was told in full before note `since`."""
        starts = range(max(0, at - self._size + 1), min(at, len(self._frets) - self._size) + 1)
        return any(self._first[self._row(start)] + self._size <= since for start in starts)

    def _row(self, start: int) -> tuple[Frets, ...]:
        return self._frets[start : start + self._size]
