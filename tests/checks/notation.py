"""The short notation of the cases: "3/5 pick; 3/7 hammer-on ! | (2/10 3/12 bend=2)".

A note is string/fret, its technique and marks follow it; `bend=2` is a bend of two semitones, `pre-bend=2`
and `trill=5` likewise (5 is the other fret). Notes in brackets are struck together. `;` parts events, ` | `
phrases. An event ends in `!` if the check must raise a query that begins there, in `~` for a remark. Events
are named e1, e2 ... and begin at 10, 20 ... seconds.
"""

from __future__ import annotations

import re
from typing import Any, get_args

from msgspec import Struct, structs

from notesgen.lesson.evidence import Counted, Evidence, LikelyKey, Spelled
from notesgen.lesson.model import (
    Event,
    FactChange,
    Facts,
    Fret,
    How,
    Key,
    Lesson,
    Mark,
    Note,
    Phrase,
    Played,
    Position,
    Source,
)
from notesgen.music.key import parse_key
from notesgen.music.tuning import parse_tuning

SECONDS = 10.0
_FLAGGED = {"!": "query", "~": "note"}
_NOTE = re.compile(r"(\d+)/(-?\d+|x)")


class Case(Struct, frozen=True):
    """A lesson, what is known of it, and the flags it must get as (first event, level)."""

    lesson: Lesson
    evidence: Evidence
    flags: tuple[tuple[str, str], ...]


def read_case(case: dict[str, Any]) -> Case:
    """One `[[case]]` of a file. Raises ValueError or KeyError if it is not written as it should be."""
    events, flags = _events(case["events"])
    names = tuple(dict.fromkeys(event.phrase for event in events))
    phrases = tuple(
        Phrase(name, name, 0.0, 0.0, tuple(event.id for event in events if event.phrase == name))
        for name in names
    )
    lesson = Lesson(source=Source("case.vtt"), facts=_facts(case), phrases=phrases, events=events)
    said = {name: frozenset(case.get(name, ())) for name in ("outside", "sure")}
    evidence = Evidence(
        **said,
        counted=tuple(
            Counted(one["count"], SECONDS, one["quote"], tuple(map(tuple, one["runs"])))
            for one in case.get("counted", ())
        ),
        spelled=tuple(
            Spelled(tuple(one["letters"]), tuple(one["events"]), SECONDS, one["quote"])
            for one in case.get("spelled", ())
        ),
        likely=_likely(case["likely"]) if "likely" in case else None,
        heard=tuple(Played(start, start + 1, midi) for start, midi in case.get("heard", ())),
    )
    return Case(lesson, evidence, flags)


def _likely(told: dict[str, Any]) -> LikelyKey:
    return LikelyKey(**{**told, "key": key(told["key"])})


def key(text: str) -> Key:
    """A key in words."""
    found = parse_key(text)
    if found is None:
        raise ValueError(f"{text} is no key")
    return Key(*found)


def _facts(case: dict[str, Any]) -> Facts:
    instrument = case.get("instrument", "guitar")
    changes = tuple(
        FactChange(change["start"], change["fact"], _value(change["fact"], change["value"]), "")
        for change in case.get("changes", ())
    )
    positions = tuple(
        Position("", position["start"], {name: tuple(frets) for name, frets in position["frets"].items()}, "")
        for position in case.get("positions", ())
    )
    return Facts(
        title="A case",
        instrument=instrument,
        tuning=parse_tuning(case.get("tuning", "standard"), instrument),
        capo=case.get("capo", 0),
        key=key(case["key"]) if "key" in case else None,
        positions=positions,
        changes=changes,
    )


def _value(fact: str, value: Any) -> Any:
    return key(value) if fact == "key" else value


def _events(text: str) -> tuple[tuple[Event, ...], tuple[tuple[str, str], ...]]:
    events: list[Event] = []
    flags: list[tuple[str, str]] = []
    for phrase, line in enumerate(text.split(" | "), start=1):
        for part in filter(None, map(str.strip, line.split(";"))):
            name = f"e{len(events) + 1}"
            level = _FLAGGED.get(part[-1])
            event = _event(part.rstrip("!~ "))
            start = SECONDS * (len(events) + 1)
            events.append(
                structs.replace(event, id=name, start=start, end=start + 5, phrase=f"p{phrase}", quote=part)
            )
            flags += [(name, level)] if level else []
    return tuple(events), tuple(flags)


def _event(text: str) -> Event:
    """One event without its place in the lesson."""
    inside, bracket, after = text.removeprefix("(").partition(")")
    notes: list[dict[str, Any]] = []
    for word in inside.split():
        place = _NOTE.fullmatch(word)
        if place:
            notes.append({"string": int(place[1]), "fret": _fret(place[2])})
        else:
            notes[-1].update(_technique(word))
    own = {} if bracket else {name: notes[0].pop(name) for name in tuple(notes[0]) if name in _FIELDS}
    for word in after.split():
        own = _added(own, _technique(word))
    return Event("", 0.0, 0.0, "", tuple(Note(**note) for note in notes), **own)


_FIELDS = ("how", "bend", "to", "marks", "played")


def _added(fields: dict[str, Any], more: dict[str, Any]) -> dict[str, Any]:
    marks = fields.get("marks", ()) + more.get("marks", ())
    return {**fields, **more, **({"marks": marks} if marks else {})}


def _fret(text: str) -> Fret:
    return "x" if text == "x" else int(text)


def _technique(word: str) -> dict[str, Any]:
    name, _, value = word.partition("=")
    if name == "sounds":
        return {"played": Played(0.0, 1.0, None if value == "nothing" else float(value))}
    if name in get_args(Mark):
        return {"marks": (name,)}
    if name not in get_args(How):
        raise ValueError(f"{word} is no technique and no mark")
    if not value:
        return {"how": name}
    return {"how": name, "to": int(value)} if name == "trill" else {"how": name, "bend": float(value)}
