"""What the teacher decides about phrases: their titles, where one begins, which go on from the one before."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from notesgen.decisions.carry import Placed
from notesgen.decisions.model import Decision
from notesgen.decisions.rows import Row, added_name, split_name
from notesgen.lesson.model import Event, Lesson, Phrase


def rephrased(
    base: Lesson, lesson: Lesson, rows: Mapping[str, Row], placed: Iterable[Placed]
) -> tuple[Lesson, tuple[Decision, ...]]:
    """The lesson with its phrases renamed, split and joined, in the order of the decisions; and the decisions
    of whose phrase nothing is left from their note on. `base` is the draft, `lesson` has the rows written."""
    phrases = {name: phrase for phrase in base.phrases for name in phrase.events}
    lost: list[Decision] = []
    for one in _standing(placed, frozenset(phrase.events[0] for phrase in base.phrases if phrase.events)):
        event = _left(one, phrases, rows)
        at = next((n for n, each in enumerate(lesson.events) if each.id == event), None)
        if at is None:
            lost.append(one.decision)
        else:
            lesson = _phrased(lesson, at, one.decision)
    return lesson, tuple(lost)


def _standing(placed: Iterable[Placed], firsts: frozenset[str]) -> list[Placed]:
    """The decisions on phrases that still hold.

    A phrase split anew begins afresh: joins on its first note are over, and so is a title, unless the draft
    has a phrase of its own there (`firsts`), whose title it is.
    """
    told = [one for one in placed if _on_phrase(one.decision) and one.events and one.events[0]]
    split = {_meant(one): n for n, one in enumerate(told) if one.decision.split}

    def over(n: int, one: Placed) -> bool:
        again = n < split.get(_meant(one), n)
        return again and (one.decision.join or one.events[0] not in firsts)

    return [one for n, one in enumerate(told) if not over(n, one)]


def _on_phrase(decision: Decision) -> bool:
    return bool(decision.rename or decision.split or decision.join)


def _meant(one: Placed) -> str:
    return added_name(one.events[0] or "", one.decision.targets[0].added)


def _left(one: Placed, phrases: Mapping[str, Phrase], rows: Mapping[str, Row]) -> str | None:
    """The event that a decision is on, or the next one of its phrase where it is out."""
    host = one.events[0] or ""
    names = phrases[host].events if host in phrases else ()
    behind = names[names.index(host) :] if host in names else ()
    least = one.decision.targets[0].added
    left = (
        each.id
        for name in behind
        for each in rows[name].events
        if name != host or split_name(each.id)[1] >= least
    )
    return next(left, None)


def _phrased(lesson: Lesson, at: int, decision: Decision) -> Lesson:
    phrases = list(lesson.phrases)
    place = next((n for n, phrase in enumerate(phrases) if phrase.id == lesson.events[at].phrase), None)
    if place is None:
        return lesson
    if decision.split:
        return _split(lesson, place, at, decision.rename)
    if decision.join:
        return _joined(lesson, place) if place else lesson
    phrases[place] = replace(phrases[place], title=decision.rename or phrases[place].title)
    return replace(lesson, phrases=tuple(phrases))


def _split(lesson: Lesson, place: int, at: int, title: str | None) -> Lesson:
    """The phrase in two, the second from event `at` on; nothing where it begins there already."""
    old, first = lesson.phrases[place], lesson.events[at]
    behind = old.events[old.events.index(first.id) :] if first.id in old.events else ()
    if len(behind) in (0, len(old.events)):
        return lesson
    new = f"{old.id}-{first.id}"
    moved = frozenset(behind)
    events = tuple(replace(e, phrase=new) if e.id in moved else e for e in lesson.events)
    parts = (
        _bounded(replace(old, events=old.events[: -len(behind)], demos=_demos(old, end=first.start)), events),
        _bounded(
            Phrase(new, title or f"{old.title}, continued", 0.0, 0.0, behind, _demos(old, start=first.start)),
            events,
        ),
    )
    return replace(
        lesson, events=events, phrases=(*lesson.phrases[:place], *parts, *lesson.phrases[place + 1 :])
    )


def _joined(lesson: Lesson, place: int) -> Lesson:
    """The phrase made part of the one before it."""
    before, old = lesson.phrases[place - 1 : place + 1]
    events = tuple(replace(e, phrase=before.id) if e.phrase == old.id else e for e in lesson.events)
    whole = replace(before, events=before.events + old.events, demos=before.demos + old.demos)
    phrases = (*lesson.phrases[: place - 1], _bounded(whole, events), *lesson.phrases[place + 1 :])
    return replace(lesson, events=events, phrases=phrases)


def _bounded(phrase: Phrase, events: Iterable[Event]) -> Phrase:
    """The phrase from the start of its first event to the end of its last."""
    ids = frozenset(phrase.events)
    inside = [event for event in events if event.id in ids]
    return replace(phrase, start=inside[0].start, end=inside[-1].end)


def _demos(
    phrase: Phrase, start: float = float("-inf"), end: float = float("inf")
) -> tuple[tuple[float, float], ...]:
    return tuple(demo for demo in phrase.demos if start <= demo[0] < end)
