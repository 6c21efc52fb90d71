"""What a lesson from a file must hold beyond its types, so that every format can be made from it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import chain

from notesgen.errors import InputError
from notesgen.lesson.model import Event, FactChange, Facts, Key, Lesson, Note
from notesgen.music.pitch import midi, pitch_class

LONGEST = 7 * 24 * 3600.0  # seconds of recording
MOST_STRINGS = 30
HIGHEST_FRET = 999  # a draft keeps what was said, also where no neck has it
HIGHEST_CAPO = 24
WIDEST_BEND = 24  # semitones
OFTENEST = 1000  # times that a repeat is played
TEMPOS = (1, 1000)  # beats a minute


def check_sense(lesson: Lesson, source: str) -> None:
    """Raises InputError, naming the place in the file, where a value is none that music has.

    Lessons that notesgen wrote pass; a file edited by hand may not.
    """
    faults = chain(
        _facts(lesson.facts), _times(lesson), _events(lesson.events), _unique(lesson), _repeats(lesson)
    )
    fault = next(faults, None)
    if fault:
        raise InputError(f"In {fault}.", source)


def _facts(facts: Facts) -> Iterator[str]:
    if not 0 < len(facts.tuning) <= MOST_STRINGS:
        yield f"facts, tuning: it should name 1 to {MOST_STRINGS} strings"
    yield from _tuning("facts, tuning", facts.tuning)
    yield from _key("facts, key", facts.key)
    yield from _between("facts, capo", facts.capo, 0, HIGHEST_CAPO)
    yield from _between("facts, tempo", facts.tempo, *TEMPOS)
    for number, position in enumerate(facts.positions, start=1):
        for string, frets in position.frets.items():
            place = f"facts, positions, item {number}, frets"
            if not (string.isascii() and string.isdigit() and 1 <= int(string) <= MOST_STRINGS):
                yield f'{place}: "{string}" is no string; give its number, 1 for the thinnest'
            for fret in frets:
                yield from _between(place, fret, 0, HIGHEST_FRET)
    for number, change in enumerate(facts.changes, start=1):
        yield from _change(f"facts, changes, item {number}, value", change)


def _change(place: str, change: FactChange) -> Iterator[str]:
    if isinstance(change.value, Key):
        yield from _key(place, change.value)
    elif isinstance(change.value, tuple):
        yield from _tuning(place, change.value)
    elif change.fact in ("capo", "tempo") and not isinstance(change.value, str):
        yield from _between(place, change.value, *((0, HIGHEST_CAPO) if change.fact == "capo" else TEMPOS))


def _tuning(place: str, tuning: Iterable[str]) -> Iterator[str]:
    return (f'{place}: "{name}" is no pitch, such as "Bb3"' for name in tuning if not _read(midi, name))


def _key(place: str, key: Key | None) -> Iterator[str]:
    if key and not _read(pitch_class, key.tonic):
        yield f'{place}: "{key.tonic}" is no note, such as "Bb"'


def _read(reader: Callable[[str], int], text: str) -> bool:
    try:
        reader(text)
    except ValueError:
        return False
    return True


def _times(lesson: Lesson) -> Iterator[str]:
    spans = [
        *((f"phrases, {phrase.id}", phrase.start, phrase.end) for phrase in lesson.phrases),
        *((f"phrases, {p.id}, demos", start, end) for p in lesson.phrases for start, end in p.demos),
        *((f"events, {event.id}", event.start, event.end) for event in lesson.events),
        *((f"flags, {flag.id}", flag.start, flag.end) for flag in lesson.flags),
        *(("facts, positions", position.start, position.start) for position in lesson.facts.positions),
        *(("facts, changes", change.start, change.start) for change in lesson.facts.changes),
    ]
    for place, start, end in spans:
        if not 0 <= start <= end <= LONGEST:
            yield f"{place}: times go from 0, in seconds, and no end comes before its start"


def _events(events: Iterable[Event]) -> Iterator[str]:
    for event in events:
        place = f"events, {event.id}"
        strings = [note.string for note in event.notes]
        if len(set(strings)) < len(strings):
            yield f"{place}: one string has two notes at once"
        for note in event.notes:
            yield from _note(place, note)
        for bend in (event.bend, *(note.bend for note in event.notes)):
            yield from _between(f"{place}, bend", bend, 0, WIDEST_BEND)
        for to in (event.to, *(note.to for note in event.notes)):
            yield from _between(f"{place}, to", to, 0, HIGHEST_FRET)


def _note(place: str, note: Note) -> Iterator[str]:
    yield from _between(f"{place}, string", note.string, 1, MOST_STRINGS)
    if isinstance(note.fret, int):
        yield from _between(f"{place}, fret", note.fret, 0, HIGHEST_FRET)


def _unique(lesson: Lesson) -> Iterator[str]:
    for name, ids in (
        ("events", [event.id for event in lesson.events]),
        ("phrases", [phrase.id for phrase in lesson.phrases]),
        ("phrases", [event for phrase in lesson.phrases for event in phrase.events]),
    ):
        seen: set[str] = set()
        for one in ids:
            if one in seen:
                yield f'{name}: "{one}" stands there twice'
            seen.add(one)


def _repeats(lesson: Lesson) -> Iterator[str]:
    for number, repeat in enumerate(lesson.repeats, start=1):
        yield from _between(f"repeats, item {number}, times", repeat.times, 1, OFTENEST)


def _between(place: str, value: float | None, lowest: int, highest: int) -> Iterator[str]:
    if value is not None and not lowest <= value <= highest:
        yield f"{place}: {value:g} is not from {lowest} to {highest}"
