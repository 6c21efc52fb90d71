"""Flags, and the ready-made answers that they offer."""

from __future__ import annotations

from msgspec import structs

from notesgen.checks.wording import listed, sentence
from notesgen.lesson.changes import left_out
from notesgen.lesson.model import Change, Event, Flag, FlagKind, Fret, How, Level, Note, Option

_MOST = 3
"""So many other readings at most: a page of choices is no help."""


def query(
    kind: FlagKind, events: tuple[Event, ...], doubt: str, kept: str, others: tuple[Option, ...] = ()
) -> Flag:
    """A question to the teacher. `doubt` is a sentence, `kept` what the draft takes: "the hammer-on".

    Where nothing else fits, the other answer is that there is no such note.
    The labels of `others` read on from "it could also be"; the option that keeps the draft is put first.
    """
    others = _distinct(others)[:_MOST] or (Option("no note", left_out(events)),)
    could = listed(tuple(option.label for option in others), "or")
    options = (Option(f"keep {kept}"), *others)
    message = f"{doubt} The draft keeps {kept}; it could also be {could}."
    return _flag(kind, "query", events, message, options)


def ask_at(kind: FlagKind, at: float, quote: str, doubt: str, kept: str, others: tuple[Option, ...]) -> Flag:
    """A question about words at a time (seconds) that gave no event: the answers change no event either."""
    others = _distinct(others)[:_MOST] or (Option("a slip of the tongue"),)
    could = listed(tuple(option.label for option in others), "or")
    message = sentence(f"{doubt} The draft keeps {kept}; it could also be {could}.")
    return Flag("", kind, "query", at, at, (), quote, message, (Option(f"keep {kept}"), *others))


def remark_at(kind: FlagKind, at: float, quote: str, message: str) -> Flag:
    """A note for information about words at a time (seconds) that gave no event."""
    return Flag("", kind, "note", at, at, (), quote, sentence(message))


def _distinct(options: tuple[Option, ...]) -> tuple[Option, ...]:
    """The options without those that read as one before them."""
    found: dict[str, Option] = {}
    for option in options:
        found.setdefault(option.label, option)
    return tuple(found.values())


def remark(kind: FlagKind, events: tuple[Event, ...], message: str) -> Flag:
    """A note for information, nothing to answer."""
    return _flag(kind, "note", events, message, ())


def with_note(event: Event, note: Note, other: Note) -> Change:
    """Puts another note in the place of one of the event's."""
    return Change(event.id, notes=tuple(other if each is note else each for each in event.notes))


def with_fret(event: Event, note: Note, fret: Fret) -> Change:
    """The same string at another fret."""
    return with_note(event, note, structs.replace(note, fret=fret))


def with_string(event: Event, note: Note, string: int) -> Change:
    """The same fret on another string."""
    return with_note(event, note, structs.replace(note, string=string))


def with_how(event: Event, note: Note, how: How) -> Change:
    """The same place, begun otherwise."""
    if len(event.notes) == 1 and note.how is None:
        return Change(event.id, how=how)
    return with_note(event, note, structs.replace(note, how=how))


def with_bend(event: Event, note: Note, bend: float) -> Change:
    """The same bend by another amount, in semitones."""
    if len(event.notes) == 1 and note.bend is None:
        return Change(event.id, bend=bend)
    return with_note(event, note, structs.replace(note, bend=bend))


def _flag(
    kind: FlagKind,
    level: Level,
    events: tuple[Event, ...],
    message: str,
    options: tuple[Option, ...],
) -> Flag:
    first, last = events[0], events[-1]
    return Flag(
        id="",
        kind=kind,
        level=level,
        start=first.start,
        end=last.end,
        events=tuple(event.id for event in events),
        quote=first.quote,
        message=sentence(message),
        options=options,
    )
