"""Notes whose string nobody named and the music does not settle."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from notesgen.lesson.model import Change, Event, Flag, Note, Option
from notesgen.settle import costs
from notesgen.settle.assign import Assigned
from notesgen.settle.doubts.wording import Wording, flag
from notesgen.settle.step import Strings

JOINED = 4  # items between notes of one run
MOST_OPTIONS = 2


def string_doubts(settled: list[tuple[Event, Assigned]], wording: Wording) -> Iterator[Flag]:
    """One query for each run of notes whose string hangs on one decision."""
    run: list[tuple[Event, Assigned]] = []
    for event, one in settled:
        if run and not (_is_unsure(one) and _joins(run[-1][1], one)):
            yield _query(run, wording)
            run = []
        if _is_unsure(one):
            run.append((event, one))
    if run:
        yield _query(run, wording)


def _is_unsure(one: Assigned) -> bool:
    said = all(len(voice.named) == 1 for voice in one.step.voices)
    return one.margin < costs.ASK and bool(one.others) and not said


def _joins(before: Assigned, one: Assigned) -> bool:
    return one.strings == before.strings and one.step.start - before.step.end <= JOINED


def _query(run: list[tuple[Event, Assigned]], wording: Wording) -> Flag:
    events = [event for event, _ in run]
    first = run[0][1]
    frets = ", ".join(str(note.fret) for event in events for note in event.notes)
    taken, offered = wording.strings(first.strings), first.others[:MOST_OPTIONS]
    fitting = " or ".join(f"the {wording.strings(strings)}" for strings in offered)
    others = tuple(Option(f"on the {wording.strings(s)}", _moved(events, s)) for s in offered)
    return flag(
        "string-unsaid",
        "query",
        events,
        f"No string was said for {frets}. The draft takes the {taken}; {fitting} would fit too.",
        (Option(f"on the {taken}"), *others),
    )


def _moved(events: list[Event], strings: Strings) -> tuple[Change, ...]:
    return tuple(
        Change(event.id, notes=tuple(map(_on, event.notes, strings)))
        for event in events
        if len(event.notes) == len(strings)
    )


def _on(note: Note, string: int) -> Note:
    return replace(note, string=string)
