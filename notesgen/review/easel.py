"""Draws phrases, and keeps each drawing for as long as nothing in it changes."""

from __future__ import annotations

from msgspec import Struct

from notesgen.lesson.model import Event
from notesgen.pack.layout.drawing.tab import tab_figures
from notesgen.pack.layout.sheet import Passage, Sheet
from notesgen.review.proof import Picture


class _Seen(Struct, frozen=True):
    """All that a drawing depends on."""

    title: str
    events: tuple[Event, ...]
    labels: tuple[str, ...]
    asked: tuple[tuple[int, ...], ...]
    opening: tuple[bool, ...]
    closing: tuple[int, ...]


class _Kept(Struct, frozen=True):
    seen: _Seen
    pictures: tuple[Picture, ...]


class Easel:
    """The drawings of one lesson, by phrase and width (points)."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, float], _Kept] = {}

    def pictures(self, phrase: str, passage: Passage, sheet: Sheet, width: float) -> tuple[Picture, ...]:
        """The phrase in lines of at most `width` points."""
        seen = _seen(passage, sheet)
        kept = self._kept.get((phrase, width))
        if kept is None or kept.seen != seen:
            kept = _Kept(seen, drawn(passage, sheet, width))
            self._kept[phrase, width] = kept
        return kept.pictures


def drawn(passage: Passage, sheet: Sheet, width: float) -> tuple[Picture, ...]:
    """The passage, drawn anew."""
    return tuple(Picture(figure.svg, figure.alt) for figure in tab_figures(passage, sheet, width))


def _seen(passage: Passage, sheet: Sheet) -> _Seen:
    ids = [event.id for event in passage.events]
    return _Seen(
        passage.title,
        passage.events,
        sheet.labels,
        tuple(sheet.asked.get(i, ()) for i in ids),
        tuple(i in sheet.opening for i in ids),
        tuple(sheet.closing.get(i, 0) for i in ids),
    )
