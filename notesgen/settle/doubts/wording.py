"""How doubts are put into words and into flags."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import Event, Flag, FlagKind, Level, Note, Option
from notesgen.settle.step import Strings


class Wording:
    """The names of the strings, string 1 first, and the sentences made of them."""

    def __init__(self, names: tuple[str, ...]) -> None:
        self._names = names

    def string(self, string: int) -> str:
        """ "G string", "low E string"; a number where the instrument has no such string."""
        named = self._names[string - 1] if 1 <= string <= len(self._names) else str(string)
        return f"{named} string"

    def strings(self, strings: Strings) -> str:
        """ "G string and B string"."""
        return " and ".join(self.string(string) for string in strings)

    def notes(self, event: Event) -> str:
        """ "9 on the G string and 10 on the B string"."""
        return " and ".join(self.note(note) for note in event.notes)

    def note(self, note: Note) -> str:
        """ "9 on the G string"."""
        return f"{note.fret} on the {self.string(note.string)}"


def flag(
    kind: FlagKind,
    level: Level,
    events: Sequence[Event],
    message: str,
    options: tuple[Option, ...] = (),
    quote: str = "",
    span: tuple[float, float] | None = None,
) -> Flag:
    """A flag over events that stand in order; its quote and span (seconds) are theirs unless given."""
    start, end = span or (events[0].start, events[-1].end)
    return Flag(
        id="",
        kind=kind,
        level=level,
        start=start,
        end=end,
        events=tuple(event.id for event in events),
        quote=quote or " ".join(dict.fromkeys(event.quote for event in events)),
        message=message,
        options=options,
    )


def clock(seconds: float) -> str:
    """ "4:12"."""
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"
