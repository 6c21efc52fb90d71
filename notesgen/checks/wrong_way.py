"""A hammer-on that does not rise, or a pull-off that does not fall.

## What it flags

A hammer-on to a fret that is not higher than the note right before it on the same string, and a pull-off to a
fret that is not lower.

## Why it matters

A hammer-on sounds a higher fret and a pull-off a lower one; the other way round nothing would sound. One of
three words was misspoken or misheard: the technique, the fret, or the fret before.

## Example

"7 on the B string, then hammer-on to 5": from 7 to 5 the note falls.

## What to do

Pick the technique that fits, or the fret that you played. If you lifted the finger and struck the lower fret
anew from above, keep the draft.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.checks.answers import query, with_fret, with_how
from notesgen.checks.tones import tones
from notesgen.checks.view import highest_fret, how, in_place, number, on_string, other_fret
from notesgen.checks.wording import fret_name, place_name, technique
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Event, Flag, FlagKind, How, Lesson, Note, Option

KIND: FlagKind = "wrong-way"

_DIRECTION: dict[How, int] = {"hammer-on": 1, "pull-off": -1}
_VERB = {1: "rise", -1: "fall"}
_OPPOSITE: dict[How, How] = {"hammer-on": "pull-off", "pull-off": "hammer-on"}
# A hand hammers and pulls within its own width. Common practice, no source.
_WIDTH = 4


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One query for each such note."""
    for place in in_place(lesson):
        if place.before is None or place.opens_phrase:
            continue
        for note in place.event.notes:
            source = _source(place.before, note)
            if source is not None and _goes_wrong(place.event, note, source):
                yield _flag(lesson, place.event, note, source)


def _source(before: Event, note: Note) -> tuple[int, ...] | None:
    """The frets that the note may come from: both of a trill, else one; None if none is known."""
    source = on_string(before, note.string)
    fret = number(source) if source else None
    if source is None or fret is None:
        return None
    other = other_fret(before, source)
    return (fret,) if other is None else (fret, other)


def _goes_wrong(event: Event, note: Note, source: tuple[int, ...]) -> bool:
    direction, fret = _DIRECTION.get(how(event, note)), number(note)
    if direction is None or fret is None:
        return False
    return all((fret - start) * direction <= 0 for start in source)


def _flag(lesson: Lesson, event: Event, note: Note, source: tuple[int, ...]) -> Flag:
    word = how(event, note)
    doubt = (
        f"{technique(word)} to {place_name(lesson, event, note)} must {_VERB[_DIRECTION[word]]}, "
        f"but the note before it is {fret_name(source[0])}."
    )
    return query(KIND, (event,), doubt, f"the {word}", _others(lesson, event, note, source))


def _others(lesson: Lesson, event: Event, note: Note, source: tuple[int, ...]) -> tuple[Option, ...]:
    word = how(event, note)
    opposite = _OPPOSITE[word]
    fret = _fitting_fret(lesson, event, note, source)
    others = []
    if note.fret not in source:
        others.append(Option(technique(opposite), (with_how(event, note, opposite),)))
    if fret is not None:
        label = f"{technique(word)} to {fret_name(fret)}"
        others.append(Option(label, (with_fret(event, note, fret),)))
    others.append(Option("a note picked anew", (with_how(event, note, "pick"),)))
    return tuple(others)


def _fitting_fret(lesson: Lesson, event: Event, note: Note, source: tuple[int, ...]) -> int | None:
    """The nearest fret in the key that lies the right way; any such fret where no key is known."""
    direction = _DIRECTION[how(event, note)]
    start = min(source) if direction > 0 else max(source)
    scale = tones(lesson, event.start)
    for step in range(1, _WIDTH + 1):
        fret = start + step * direction
        known = scale.has(note.string, fret) if scale else step > 1
        if known and 0 <= fret <= highest_fret(lesson, event.start):
            return fret
    return None
