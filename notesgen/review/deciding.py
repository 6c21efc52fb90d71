"""From what the teacher does on the page to the decision that is kept in the file."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.decisions.making import Maker
from notesgen.decisions.model import Added, Decision
from notesgen.decisions.notation import parse_notes, short
from notesgen.decisions.rows import split_name
from notesgen.decisions.store import Entry
from notesgen.errors import InputError
from notesgen.lesson.model import Event, Flag, Lesson
from notesgen.pack.layout.clock import clock
from notesgen.review.acts import Choose, Delete, Insert, Join, Recap, Rename, Split, Write

Deed = Choose | Write | Delete | Insert | Rename | Split | Join | Recap
BETWEEN = (
    "Between these notes none can be added; add it before the first or after the last of them, and then "
    "change the frets."
)
GONE = "That note is not in the draft any more; choose it again."


def entry_of(deed: Deed, seen: Lesson, maker: Maker) -> Entry:
    """The decision that a deed makes, on the lesson that the teacher saw. Raises InputError."""
    try:
        if isinstance(deed, Choose):
            flag = query_of(seen, deed.query)
            return Entry(_answer(flag, deed.option, maker), f"{clock(flag.start)}  {flag.message}")
        return Entry(_edit(deed, {event.id: event for event in seen.events}, seen, maker), "Set by hand")
    except KeyError:
        raise InputError(GONE) from None


def _answer(flag: Flag, option: int, maker: Maker) -> Decision:
    if not 0 <= option < len(flag.options):
        raise InputError("That query has no such answer.")
    if not flag.events and not flag.options[option].change:
        raise InputError("The notes of that query are not in the draft any more.")
    return maker.answer(flag, option)


def _edit(deed: Deed, events: dict[str, Event], seen: Lesson, maker: Maker) -> Decision:
    match deed:
        case Write():
            return _written(deed, events[deed.event], seen, maker)
        case Delete():
            return maker.drop(_known(deed.events, events))
        case Recap():
            return maker.recap(_known(deed.events, events))
        case Insert():
            return _inserted(deed, events[deed.event], seen, maker)
        case Rename():
            title = " ".join(deed.title.split())
            if not title:
                raise InputError("A phrase needs a title.")
            return maker.rename(_first(events[deed.event], seen), title)
        case Split():
            return maker.split(events[deed.event].id)
        case Join():
            return maker.join(events[deed.event].id)
        case _:
            raise InputError("This cannot be done here.")


def _written(deed: Write, event: Event, seen: Lesson, maker: Maker) -> Decision:
    """All of the note is written down, so that the last word on it holds whatever was said before."""
    changed = replace(
        event,
        notes=deed.notes or event.notes,
        how=deed.how or event.how,
        bend=event.bend if deed.bend is None else deed.bend or None,
        to=event.to if deed.to is None else deed.to,
    )
    strings = len(seen.facts.tuning)
    if parse_notes(short(changed.notes)) is None or any(note.string > strings for note in changed.notes):
        raise InputError(f"Give each note a string of its own, from 1 to {strings}, and a fret from 0.")
    told = f"{short(event.notes)}→{short(changed.notes)}"
    if changed.how != event.how or changed.notes == event.notes:
        told = f"{short(changed.notes)} {changed.how}"
    return maker.edit(changed, told, event.marks if deed.marks is None else deed.marks)


def _inserted(deed: Insert, event: Event, seen: Lesson, maker: Maker) -> Decision:
    """A picked copy. A row of added notes grows at its ends only: decisions know no place within it."""
    host = split_name(event.id)[0]
    row = [each.id for each in seen.events if split_name(each.id)[0] == host]
    added = (Added(notes=short(event.notes)),)
    if event.id != (row[0] if deed.side == "before" else row[-1]):
        raise InputError(BETWEEN)
    if deed.side == "before":
        return maker.insert(event.id, before=added)
    return maker.insert(event.id, after=added)


def _known(names: tuple[str, ...], events: dict[str, Event]) -> list[str]:
    known = [name for name in names if name in events]
    if not known:
        raise InputError(GONE)
    return known


def _first(event: Event, seen: Lesson) -> str:
    """A phrase is known by its first note, so that another title takes the place of the former one."""
    phrase = next((phrase for phrase in seen.phrases if phrase.id == event.phrase), None)
    return phrase.events[0] if phrase and phrase.events else event.id


def query_of(lesson: Lesson, name: str) -> Flag:
    """The query of that id. Raises InputError where it is gone."""
    found = next((flag for flag in lesson.flags if flag.id == name), None)
    if found is None:
        raise InputError("That query is gone; another answer settled it.")
    return found
