"""Decisions as a teacher types them: "1=b", "f3=2", "1=2/8", "2/9→2/8", "e12->pull-off at 1:32"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import cast, get_args

from msgspec.structs import replace

from notesgen.decisions.making import OUT, Maker
from notesgen.decisions.model import Decision
from notesgen.decisions.notation import parse_notes, short
from notesgen.errors import InputError
from notesgen.lesson.model import Event, Flag, How, Lesson, Note
from notesgen.pack.layout.clock import clock

AN_ANSWER = 'write the number of a question and a choice, such as "1=b"'
A_SETTING = 'write what it is and what it should be, such as "2/9→2/8"'
NEAR = 5.0  # seconds from a time that is named
_SETTING = re.compile(r"(?P<what>.+?)\s*(?:→|->)\s*(?P<value>.+?)(?:\s+at\s+(?P<time>[\d:.]+))?")
_HOW = re.compile(r"(?P<how>[a-z-]+)(?:=(?P<amount>\d+(?:\.\d+)?))?")
GONE = ("none", "nothing", "no note")


def question(text: str, numbers: Sequence[Flag]) -> Flag:
    """The query that a number or a flag's id names. `numbers` holds all queries by their number, from 1.

    Raises InputError.
    """
    name = text.strip().strip("[]")
    by_id = {flag.id: flag for flag in numbers}
    if name in by_id:
        return by_id[name]
    if name.isdecimal() and 1 <= int(name) <= len(numbers):
        return numbers[int(name) - 1]
    there = f"the questions are 1 to {len(numbers)}" if numbers else "this lesson has no questions"
    raise InputError(f'There is no question "{text}": {there}.')


def answered(text: str, numbers: Sequence[Flag], lesson: Lesson, maker: Maker) -> tuple[Flag, Decision]:
    """ "1=b", "1=2", "f3=b", "1=2/8": the query, and the decision on it. Raises InputError."""
    name, separator, choice = text.partition("=")
    if not separator or not choice.strip():
        raise InputError(f'"{text}" is no answer: {AN_ANSWER}.')
    flag = question(name, numbers)
    choice = choice.strip()
    notes = parse_notes(choice)
    if notes:
        return flag, _by_value(flag, notes, lesson, maker)
    at = _option(choice)
    if at is None or not 0 <= at < len(flag.options):
        last = chr(ord("a") + len(flag.options) - 1)
        raise InputError(f'Question {name.strip()} has no choice "{choice}": give a letter from a to {last}.')
    return flag, maker.answer(flag, at)


def set_by_hand(text: str, lesson: Lesson, maker: Maker) -> Decision:
    """ "2/9→2/8", "2/9->2/8 at 1:32", "e12→hammer-on", "e12→none". Raises InputError."""
    found = _SETTING.fullmatch(text.strip())
    if found is None:
        raise InputError(f'"{text}" sets nothing: {A_SETTING}.')
    event = _event(found["what"].strip(), found["time"], text, lesson)
    value = found["value"].strip()
    told = f"{short(event.notes)}→{value}"
    if value in GONE:
        return maker.drop([event.id], told)
    changed = _changed(event, value, text)
    if changed.how == event.how and changed.bend == event.bend and changed.to == event.to:
        return maker.notes(changed, told)
    return maker.edit(changed, told)


def _option(choice: str) -> int | None:
    choice = choice.rstrip(")")
    if choice.isdecimal():
        return int(choice) - 1
    return ord(choice.lower()) - ord("a") if len(choice) == 1 and choice.isascii() else None


def _by_value(flag: Flag, notes: tuple[Note, ...], lesson: Lesson, maker: Maker) -> Decision:
    if not flag.events:
        raise InputError(OUT)
    if len(flag.events) != 1:
        raise InputError(
            f"This question is about {len(flag.events)} notes: choose a letter, or set each note with --set."
        )
    event = next(each for each in lesson.events if each.id == flag.events[0])
    made = maker.notes(replace(event, notes=notes), short(notes))
    return replace(made, asked=flag.kind, at=round(flag.start, 3), words=flag.quote)


def _event(what: str, time: str | None, text: str, lesson: Lesson) -> Event:
    """The one event that is meant, by its id or its notes."""
    notes = parse_notes(what)
    found = [
        e for e in lesson.events if e.id == what or (notes is not None and short(e.notes) == short(notes))
    ]
    if time is not None:
        at = _seconds(time, text)
        found = [event for event in found if event.start - NEAR <= at <= event.end + NEAR]
    if not found:
        raise InputError(f'"{text}": there is no {what} {"at that time" if time else "in this lesson"}.')
    if len(found) > 1:
        places = ", ".join(f"{event.id} at {clock(event.start)}" for event in found[:8])
        raise InputError(
            f'"{text}": {what} stands {len(found)} times ({places}); give its name, "{found[0].id}→…".'
        )
    return found[0]


def _changed(event: Event, value: str, text: str) -> Event:
    """The event with notes, way of beginning or amount as typed: "2/8", "pull-off", "2/8 bend=2"."""
    places = [part for part in value.split() if "/" in part]
    notes = parse_notes(" ".join(places)) if places else event.notes
    if notes is None:
        raise InputError(f'"{text}": {value} names no notes; write string/fret, such as "2/8".')
    event = replace(event, notes=notes)
    for part in value.split():
        found = _HOW.fullmatch(part)
        if part in places:
            continue
        if found is None or found["how"] not in get_args(How):
            raise InputError(f'"{text}": "{part}" is no way to begin a note: {", ".join(get_args(How))}.')
        how = cast(How, found["how"])
        amount = float(found["amount"]) if found["amount"] else None
        event = replace(event, how=how, bend=amount if amount is not None else event.bend)
    return event


def _seconds(time: str, text: str) -> float:
    parts = time.split(":")
    if len(parts) > 3 or not all(re.fullmatch(r"\d+(\.\d+)?", part) for part in parts):
        raise InputError(f'"{text}": "{time}" is no time; write minutes and seconds, such as 1:32.')
    seconds = 0.0
    for part in parts:
        seconds = seconds * 60 + float(part)
    return seconds
