"""What the words themselves left open: counts, amounts, techniques."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby

from msgspec.structs import replace

from notesgen.lesson.changes import left_out
from notesgen.lesson.model import Change, Event, Flag, Fret, How, Option
from notesgen.settle.assign import Assigned
from notesgen.settle.doubts.wording import Wording, flag
from notesgen.settle.told import MOST_STROKES, Loop

AMOUNTS = {0.5: "a quarter tone", 1.0: "a half step", 2.0: "a whole step", 3.0: "a step and a half"}

Settled = list[tuple[Event, Assigned]]


def word_doubts(settled: Settled, wording: Wording) -> Iterator[Flag]:
    """Queries and remarks that each event's own words give rise to."""
    yield from _counts(settled)
    yield from _misheard(settled)
    yield from _chords(settled)
    for event, one in settled:
        step = one.step
        if step.corrected:
            yield _corrected(event, step.corrected, wording)
        if step.retold and set(step.retold) != set(step.frets):
            yield _respelled(event, step.retold, wording)
        if step.unsure_how:
            yield _how(event, step.unsure_how, wording)
        if step.unsure_fret is not None:
            yield _fret(event, step.unsure_fret, wording)
        if step.unsure_hand:
            yield _finger(event, wording)
        if step.amount_unsaid:
            yield _amount(event, wording)


def open_loops(loops: Iterable[Loop], events: Mapping[int, Event]) -> Iterator[Flag]:
    """A remark, at its last note, on each passage whose number of times was left open.

    `events` maps the places of steps to their events.
    """
    for loop in loops:
        inside = [event for place, event in events.items() if loop.first <= place <= loop.last]
        if loop.open and inside:
            said = f'How often this is played was left open ("{loop.open}").'
            drafted = f"The draft has it {loop.times} times."
            yield flag("count-unsure", "note", inside[-1:], f"{said} {drafted}")


def _corrected(event: Event, slip: str, wording: Wording) -> Flag:
    told = wording.notes(event)
    return flag(
        "corrected", "note", [event], f"You said {slip} first and put it right; the draft has {told}."
    )


def _counts(settled: Settled) -> Iterator[Flag]:
    """One query for each run of strokes whose number was left open."""
    end = 0
    for (words, _), run in groupby(settled, key=lambda pair: (pair[1].step.unsure_count, pair[1].step.start)):
        events = [event for event, _ in run]
        end += len(events)
        if words:
            yield _count(events, words, [event for event, _ in settled[:end]])


def _count(events: list[Event], words: str, so_far: list[Event]) -> Flag:
    """ "3 or 4" as a question between the two; a count that strokes cannot have, as one whether to play.

    `so_far` are all events up to the last stroke.
    """
    first, separator, last = words.partition(" or ")
    strokes = so_far[-int(first) :] if separator and first.isdigit() else []
    alike = len({(event.notes, event.how) for event in strokes}) == 1
    if alike and last.isdigit() and last != first and int(last) <= MOST_STROKES:
        said = f'How often was left open ("{words}"). The draft writes the first number.'
        other = Option(f"{last} times", _struck(strokes, int(last)))
        return flag("count-unsure", "query", events, said, (Option(f"{first} times, as written"), other))
    said = f'How often cannot be told from the words ("{words}"). The draft keeps what is written.'
    other = Option("no note", left_out(events))
    return flag("count-unsure", "query", events, said, (Option("as written"), other))


def _struck(strokes: list[Event], times: int) -> tuple[Change, ...]:
    """The changes that make so many strokes of those that are written."""
    if times < len(strokes):
        return left_out(strokes[times:])
    return (Change(strokes[-1].id, times=times - len(strokes) + 1),)


def _misheard(settled: Settled) -> Iterator[Flag]:
    """One remark for all notes of one wording."""
    for (_, misheard), run in groupby(settled, key=lambda pair: (pair[1].step.start, pair[1].step.misheard)):
        if misheard:
            events = [event for event, _ in run]
            heard = "; ".join(misheard)
            yield flag("misheard", "note", events, f"The captions say {heard}; the draft read it so.")


def _respelled(event: Event, retold: tuple[Fret, ...], wording: Wording) -> Flag:
    spelled = " and ".join(str(fret) for fret in retold)
    notes = tuple(replace(note, fret=fret) for note, fret in zip(event.notes, retold, strict=False))
    return flag(
        "told-differently",
        "query",
        [event],
        f"Moving the shape gives {wording.notes(event)}, but the words after it say {spelled}. "
        "The draft moves the shape.",
        (Option("the shape moved"), Option(f"{spelled}, as said", (Change(event.id, notes=notes),))),
    )


def _how(event: Event, hows: tuple[How, ...], wording: Wording) -> Flag:
    others = tuple(Option(how, (Change(event.id, how=how),)) for how in hows if how != event.how)
    options = (Option(event.how), *others)
    return flag(
        "technique-unsure",
        "query",
        [event],
        f"How {wording.notes(event)} is played was left open. The draft takes {event.how}.",
        options,
    )


def _chords(settled: Settled) -> Iterator[Flag]:
    """One query for each run of strokes over a chord of which only the name was said."""
    for name, run in groupby(settled, key=lambda pair: pair[1].step.unsure_chord):
        if name:
            events = [event for event, _ in run]
            yield flag(
                "fret-unsure",
                "query",
                events,
                f"You name the chord {name} and no frets. "
                "The draft writes the shape in which it is first learnt.",
                (Option("as written"), Option("not struck", left_out(events))),
            )


def _fret(event: Event, other: int, wording: Wording) -> Flag:
    note = event.notes[0]
    change = Change(event.id, notes=(replace(note, fret=other),))
    return flag(
        "fret-unsure",
        "query",
        [event],
        f"You left open whether it is fret {note.fret} or {other}. The draft takes {wording.notes(event)}.",
        (Option(f"fret {note.fret}"), Option(f"fret {other}", (change,))),
    )


def _finger(event: Event, wording: Wording) -> Flag:
    note = event.notes[0]
    near = [fret for fret in (int(note.fret) + 1, int(note.fret) - 1) if fret > 0] if note.fret != "x" else []
    others = tuple(
        Option(f"fret {fret}", (Change(event.id, notes=(replace(note, fret=fret),)),)) for fret in near
    )
    return flag(
        "fret-unsure",
        "query",
        [event],
        f"You named a finger and no fret. By where the hand seems to be it is {wording.notes(event)}.",
        (Option(f"fret {note.fret}"), *others, Option("no note", left_out([event]))),
    )


def _amount(event: Event, wording: Wording) -> Flag:
    options = tuple(
        Option(text, () if amount == event.bend else (Change(event.id, bend=amount),))
        for amount, text in sorted(AMOUNTS.items(), key=lambda pair: pair[0] != event.bend)
    )
    return flag(
        "amount-unsure",
        "query",
        [event],
        f"How far to bend {wording.notes(event)} was not said. The draft bends a whole step.",
        options,
    )
