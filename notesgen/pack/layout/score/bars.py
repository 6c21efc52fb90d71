"""A lesson cut into bars of even eighth notes.

The rhythm of a lesson that is only talked through is not known. Each event stands for an eighth; a new
phrase, a repeat and a new key or neck begin a new bar. Only the last bar of a phrase is filled up with rests.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from notesgen.lesson.model import Event, Lesson
from notesgen.pack.layout.score.links import Link, links
from notesgen.pack.layout.score.necks import Neck, neck
from notesgen.pack.layout.sheet import lay_out

EIGHTHS = 8  # of a bar in 4/4


class Bar(Struct, frozen=True):
    """`title` where a phrase begins, else "". `opens`: a repeat begins; `closes`: how often the one that ends
    here is played in all, else 0. `rests`: eighths of silence at its end."""

    events: tuple[Event, ...]
    links: tuple[tuple[Link, ...], ...]
    necks: tuple[Neck, ...]
    title: str
    opens: bool
    closes: int
    rests: int

    @property
    def neck(self) -> Neck:
        """What is in force where the bar begins."""
        return self.necks[0]

    @property
    def eighths(self) -> int:
        """Its length."""
        return len(self.events) + self.rests


def bars(lesson: Lesson, titles: tuple[str, ...]) -> list[Bar]:
    """All bars in order; phrases without notes have none. `titles` are those of the phrases."""
    sheet = lay_out(lesson, flagged=False)
    opening, closing = _repeats(lesson)
    made: list[Bar] = []
    for number, passage in enumerate(sheet.passages):
        title = titles[number] if number < len(titles) else "Further notes"
        joined = dict(zip((event.id for event in passage.events), links(passage.events), strict=True))
        necks = {event.id: neck(lesson.facts, event.start) for event in passage.events}
        cut = list(_cut(passage.events, necks, opening, closing))
        for at, events in enumerate(cut):
            closes = closing.get(events[-1].id, 0)
            ends_phrase = at == len(cut) - 1 and not closes
            made.append(
                Bar(
                    events=tuple(events),
                    links=tuple(_rising(joined[event.id], necks[event.id]) for event in events),
                    necks=tuple(necks[event.id] for event in events),
                    title=title if at == 0 else "",
                    opens=events[0].id in opening,
                    closes=closes,
                    rests=EIGHTHS - len(events) if ends_phrase else 0,
                )
            )
    return made


def _rising(event: tuple[Link, ...], neck: Neck) -> tuple[Link, ...]:
    """Notes struck together from the lowest up, as a chord is written."""
    return tuple(sorted(event, key=lambda link: neck.pitch(link.stroke.string, link.stroke.fret) or 0))


def _cut(
    events: tuple[Event, ...], necks: dict[str, Neck], opening: set[str], closing: dict[str, int]
) -> Iterator[list[Event]]:
    """Runs of at most a bar."""
    bar: list[Event] = []
    for event in events:
        new = event.id in opening or (bar and not necks[event.id].is_written_as(necks[bar[0].id]))
        if bar and (new or len(bar) == EIGHTHS or bar[-1].id in closing):
            yield bar
            bar = []
        bar.append(event)
    if bar:
        yield bar


def _repeats(lesson: Lesson) -> tuple[set[str], dict[str, int]]:
    """The events that open a repeat, and how often the one that each closing event ends is played.

    Repeat signs know no nesting: of repeats that lie within one another or cross, the first, longest stands.
    """
    place = {event.id: at for at, event in enumerate(lesson.events)}
    known = [r for r in lesson.repeats if r.first in place and r.last in place and r.times > 1]
    opening: set[str] = set()
    closing: dict[str, int] = {}
    end = -1
    for repeat in sorted(known, key=lambda r: (place[r.first], -place[r.last])):
        if end < place[repeat.first] <= place[repeat.last]:
            opening.add(repeat.first)
            closing[repeat.last] = repeat.times
            end = place[repeat.last]
    return opening, closing
