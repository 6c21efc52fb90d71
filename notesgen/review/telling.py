"""What an act has changed, in a sentence or two."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Event, Lesson
from notesgen.review.proof import Told, is_open


def told(message: str, before: Lesson, after: Lesson, answered: str = "") -> Told:
    """The message, and what else came of it. `answered` is the id of the query that was meant.

    `changed` holds the notes that look another way, `made` the first that was not there.
    """
    old = {event.id: event for event in before.events}
    new = [event.id for event in after.events if event.id not in old]
    changed = [e.id for e in after.events if e.id in old and _looks(old[e.id]) != _looks(e)]
    return Told(
        " ".join(
            part for part in (message, _settled(before, after, answered), _raised(before, after)) if part
        ),
        tuple(new + changed),
        new[0] if new else None,
    )


def _settled(before: Lesson, after: Lesson, answered: str) -> str:
    closed = _open(before) - _open(after) - {answered}
    if not closed:
        return ""
    return f"This also settled {len(closed)} {'other' if len(closed) == 1 else 'others'}."


def _raised(before: Lesson, after: Lesson) -> str:
    """Queries that were not there at all; one that is open again needs no words."""
    known = {flag.id for flag in before.flags}
    raised = len({name for name in _open(after) if name not in known})
    if not raised:
        return ""
    return f"It raised {raised} new {'query' if raised == 1 else 'queries'}."


def _open(lesson: Lesson) -> set[str]:
    return {flag.id for flag in lesson.flags if is_open(flag)}


def _looks(event: Event) -> Event:
    """An event without what no reader sees."""
    return replace(event, flags=(), origin="said")
