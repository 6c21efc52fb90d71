"""Which flags the decisions answer, and which they settle by the way."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec.structs import replace
from rapidfuzz import fuzz

from notesgen.decisions.carry import Placed
from notesgen.decisions.model import Decision
from notesgen.decisions.places import plain
from notesgen.decisions.rows import Row, split_name
from notesgen.lesson.model import Change, Flag, Option

BY_THE_WAY = "settled by another answer"


def answers(flags: Sequence[Flag], placed: Iterable[Placed]) -> dict[str, Decision]:
    """The decision on each flag that was asked and answered, by the flag's id; the last one holds.

    A decision answers one flag: of its kind, about one of its events, the likest in words.
    """
    by_event: dict[str, list[Flag]] = {}
    for flag in flags:
        for event in dict.fromkeys(split_name(name)[0] for name in flag.events):
            by_event.setdefault(event, []).append(flag)
    found: dict[str, Decision] = {}
    for one in placed:
        about = {flag.id: flag for event in one.events if event for flag in by_event.get(event, ())}
        asked = [flag for flag in about.values() if flag.kind == one.decision.asked]
        if asked:
            words = plain(one.decision.words)
            likest = max(asked, key=lambda flag: fuzz.ratio(plain(flag.quote), words))
            found[likest.id] = one.decision
    return found


def with_answers(
    flags: Iterable[Flag], found: Mapping[str, Decision], rows: Mapping[str, Row]
) -> tuple[Flag, ...]:
    """The flags over what is left of their events, answered where a decision says so.

    One whose choices are all about what another answer decided, or whose notes are gone, is settled with it.
    """
    return tuple(left_of(flag, _decided(flag, found.get(flag.id), rows), rows) for flag in flags)


def left_of(flag: Flag, decided: str | None, rows: Mapping[str, Row]) -> Flag:
    """The flag over what is left of its events, with its answer. The options of an open one leave alone what
    is out; those of an answered one would bring it back."""
    events = tuple(name for name in flag.events if not _gone(name, rows))
    options = flag.options if decided else tuple(_still(option, rows) for option in flag.options)
    return replace(flag, events=events, options=options, decided=decided)


def _still(option: Option, rows: Mapping[str, Row]) -> Option:
    still = (one for one in option.change if one.writes_beside or not _gone(one.event, rows))
    return replace(option, change=tuple(still))


def _decided(flag: Flag, decision: Decision | None, rows: Mapping[str, Row]) -> str | None:
    if decision is not None:
        return decision.answer
    return BY_THE_WAY if _is_settled(flag, rows) else flag.decided


def _gone(name: str, rows: Mapping[str, Row]) -> bool:
    return name in rows and rows[name].dropped


def _is_settled(flag: Flag, rows: Mapping[str, Row]) -> bool:
    if flag.level != "query":
        return False
    changes = [change for option in flag.options for change in option.change]
    if any(change.writes_beside for change in changes):
        return False  # whatever becomes of the note beside which they would stand
    if flag.events and all(_gone(name, rows) for name in flag.events):
        return True
    return bool(changes) and all(_is_decided(change, rows) for change in changes)


def _is_decided(change: Change, rows: Mapping[str, Row]) -> bool:
    """Whether the teacher has decided on what the change would set, or the event is out."""
    if change.event not in rows:
        return False
    row = rows[change.event]
    return row.dropped or bool(_set_by(change) & row.decided.get(change.event, frozenset()))


def _set_by(change: Change) -> set[str]:
    told = {name for name in ("notes", "how", "bend", "to", "times") if getattr(change, name) is not None}
    return told | ({"drop", "notes"} if change.drop else set())
