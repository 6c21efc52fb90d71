"""Edits that more than one kind of question offers."""

from __future__ import annotations

from collections.abc import Iterable

from notesgen.lesson.model import Change, Event


def left_out(events: Iterable[Event]) -> tuple[Change, ...]:
    """Takes all these events out of the lesson."""
    return tuple(Change(event.id, drop=True) for event in events)
