"""Edits of single events: each drafted event becomes a row, itself among those written beside it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from notesgen.decisions.carry import Placed
from notesgen.decisions.model import Added, Target
from notesgen.decisions.notation import parse_notes
from notesgen.lesson.model import BENDS, Event

ITSELF = 0


class Row(Struct, frozen=True):
    """What became of one drafted event. `struck` are ids of its further strokes, `decided` names, for each
    id, the fields that the teacher decided. `dropped` tells that the event itself is out."""

    events: tuple[Event, ...]
    struck: frozenset[str]
    decided: dict[str, frozenset[str]]
    dropped: bool


def edited_rows(events: Sequence[Event], placed: Iterable[Placed]) -> dict[str, Row]:
    """The row of each event, by the event's id, with all edits made in the order of the decisions."""
    drafts = {event.id: _Draft(event) for event in events}
    for one in placed:
        for target, event in zip(one.decision.targets, one.events, strict=True):
            if event in drafts:
                drafts[event].edit(target, out=target.drop or one.decision.recap)
    return {name: draft.row() for name, draft in drafts.items()}


def added_name(event: str, place: int) -> str:
    """The id of an event beside a drafted one: "e5a2" is the second after e5, "e5b1" the first before it."""
    if place == ITSELF:
        return event
    return f"{event}{'a' if place > 0 else 'b'}{abs(place)}"


def split_name(name: str) -> tuple[str, int]:
    """The drafted event and the place beside it that an id stands for: "e5a2" as ("e5", 2)."""
    for letter, sign in (("a", 1), ("b", -1)):
        event, found, place = name.rpartition(letter)
        if found and event and place.isdecimal():
            return event, sign * int(place)
    return name, ITSELF


class _Draft:
    """One row while it is being edited: events by their place, 0 for the drafted one, None where dropped."""

    def __init__(self, event: Event) -> None:
        self._host = event
        self._places: dict[int, Event | None] = {ITSELF: event}
        self._strokes: list[int] = []
        self._decided: dict[int, set[str]] = {}

    def edit(self, target: Target, out: bool) -> None:
        """Makes the target's edits. One that nothing was written for any more does nothing."""
        event = self._places.get(target.added)
        known = target.added in self._places
        if event is None and not (known and (out or target.before or target.after)):
            return
        if event is not None:
            self._places[target.added] = None if out else self._changed(event, target)
        if target.times is not None:
            self._strike(target)
        for added in reversed(target.before):
            self._write(min(self._places) - 1, added)
        for added in target.after:
            self._write(max(self._places) + 1, added)
        self._decided.setdefault(target.added, set()).update(_fields(target, out))

    def row(self) -> Row:
        """The row as it stands."""
        order = sorted(self._places)
        return Row(
            events=tuple(event for place in order if (event := self._places[place])),
            struck=frozenset(added_name(self._host.id, place) for place in self._strokes),
            decided={
                added_name(self._host.id, place): frozenset(fields) for place, fields in self._decided.items()
            },
            dropped=self._places[ITSELF] is None,
        )

    def _changed(self, event: Event, target: Target) -> Event:
        changed = replace(
            event,
            notes=(parse_notes(target.notes or "") or event.notes),
            how=target.how or event.how,
            bend=event.bend if target.bend is None else target.bend,
            to=event.to if target.to is None else target.to,
            marks=event.marks if target.marks is None else target.marks,
        )
        changed = _consistent(changed)
        return event if changed == event else replace(changed, origin="decided")

    def _strike(self, target: Target) -> None:
        """So many strokes in all: further ones right behind, or fewer than an answer had written before."""
        for place in self._strokes:
            self._places[place] = None
        model = self._places[target.added]
        for _ in range((target.times or 1) - 1):
            place = max(self._places) + 1
            self._strokes.append(place)
            name = added_name(self._host.id, place)
            self._places[place] = replace(model, id=name, flags=(), origin="decided") if model else None

    def _write(self, place: int, added: Added) -> None:
        notes = parse_notes(added.notes)
        if notes is None:
            return
        written = Event(
            id=added_name(self._host.id, place),
            start=self._host.start,
            end=self._host.end,
            phrase=self._host.phrase,
            notes=notes,
            how=added.how,
            bend=added.bend,
            to=added.to,
            marks=added.marks,
            origin="decided",
            quote=self._host.quote,
        )
        self._places[place] = _consistent(written)


def _consistent(event: Event) -> Event:
    """Without an amount where nothing is bent, and without another fret where nothing is trilled."""
    bent = event.how in BENDS or event.how == "release"
    return replace(event, bend=event.bend if bent else None, to=event.to if event.how == "trill" else None)


def _fields(target: Target, out: bool) -> set[str]:
    """What the target's edit decides, by the names of a change's fields."""
    told = {name for name in ("notes", "how", "bend", "to", "times") if getattr(target, name) is not None}
    return told | ({"drop"} if out else set())
