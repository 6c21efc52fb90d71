"""A passage as numbered steps in plain words, one for each stretch on one string."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from msgspec import Struct

from notesgen.lesson.model import Event
from notesgen.pack.layout.sheet import Passage, Sheet
from notesgen.pack.layout.strings import string_name
from notesgen.pack.layout.strokes import with_before
from notesgen.pack.layout.words import event_words, often


class Step(Struct, frozen=True):
    """What to play in one go. `asked`: the footnotes that touch it."""

    words: str
    asked: tuple[int, ...]


def steps(passage: Passage, sheet: Sheet, tuning: Sequence[str]) -> list[Step]:
    """The steps of the passage. Where a repeat ends, the step says how often to play from where."""
    made: list[Step] = []
    told = {event.id: event_words(event, before, tuning) for event, before in with_before(passage.events)}
    back_to = 1
    for run in _runs(passage.events, sheet):
        if run[0].id in sheet.opening:
            back_to = len(made) + 1
        words = _run_words(run, told, tuning)
        times = sheet.closing.get(run[-1].id)
        made.append(
            Step(
                words + (_again(back_to, len(made) + 1, times) if times else ""),
                tuple(sorted({number for event in run for number in sheet.asked.get(event.id, ())})),
            )
        )
    return made


def _runs(events: Iterable[Event], sheet: Sheet) -> list[list[Event]]:
    """Single notes that follow each other on one string; several struck together stand alone."""
    runs: list[list[Event]] = []
    for event in events:
        if runs and _goes_on(runs[-1][-1], event, sheet):
            runs[-1].append(event)
        else:
            runs.append([event])
    return runs


def _goes_on(before: Event, event: Event, sheet: Sheet) -> bool:
    if before.id in sheet.closing or event.id in sheet.opening:
        return False
    return {note.string for note in before.notes} == {note.string for note in event.notes} and _single(event)


def _single(event: Event) -> bool:
    return len(event.notes) == 1


def _run_words(run: Sequence[Event], told: dict[str, str], tuning: Sequence[str]) -> str:
    """The run in words; `told` holds the words of each event."""
    text = ", ".join(_counted(told[event.id] for event in run))
    if _single(run[0]):
        return f"{_capital(string_name(tuning, run[0].notes[0].string))}: {text}"
    return _capital(text)


def _counted(told: Iterable[str]) -> list[str]:
    """The same thing said several times running as "open three times"."""
    counts = [(words, len(list(same))) for words, same in groupby(told)]
    return [words if count == 1 else f"{words} {often(count)}" for words, count in counts]


def _again(first: int, last: int, times: int) -> str:
    played = often(times)
    return f". Play this step {played}" if first == last else f". Steps {first} to {last} are played {played}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
