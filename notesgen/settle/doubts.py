"""What the settling is unsure of, as flags with ready answers."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from notesgen.lesson.model import Change, Event, Flag, FlagKind, Fret, How, Note, Option
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import pitch_class
from notesgen.settle import costs
from notesgen.settle.assign import Assigned
from notesgen.settle.recaps import Difference
from notesgen.settle.step import Strings
from notesgen.settle.talk import Talk
from notesgen.speech.surroundings import ODD

_AMOUNTS = {0.5: "a quarter tone", 1.0: "a half step", 2.0: "a whole step", 3.0: "a step and a half"}


def doubts(
    events: tuple[Event, ...], assigned: tuple[Assigned, ...], names: tuple[str, ...]
) -> Iterator[Flag]:
    """Flags of all kinds that the settling itself raises. `names` are the strings' names, string 1 first."""
    yield from _strings(events, assigned, names)
    yield from _counts(events, assigned)
    yield from _odd(events, assigned, names)
    for event, one in zip(events, assigned, strict=True):
        step = one.step
        if step.corrected:
            yield _flag(
                "corrected",
                "note",
                [event],
                f"You said {step.corrected} first and put it right; the draft has {_told(event, names)}.",
            )
        if step.retold and set(step.retold) != set(step.frets):
            yield _respelled(event, step.retold, names)
        if step.unsure_how:
            yield _how(event, step.unsure_how, names)
        if step.amount_unsaid:
            yield _amount(event, names)
        if step.misheard:
            yield _flag("misheard", "note", [event], f"The captions were read as {', '.join(step.misheard)}.")


def told_differently(
    differences: tuple[Difference, ...], events: dict[int, Event], talk: Talk, names: tuple[str, ...]
) -> Iterator[Flag]:
    """A retelling that does not agree with the first telling. `events` maps a step's place to its event."""
    for difference in differences:
        event = events.get(difference.step)
        if event is None:
            continue
        note = event.notes[0]
        again = (Note(note.string, difference.retold), *event.notes[1:])
        yield Flag(
            id="",
            kind="told-differently",
            level="query",
            start=event.start,
            end=event.end,
            events=(event.id,),
            quote=f"{event.quote} / {talk.quote(difference.start, difference.end, around=2)}",
            message=f"The first telling has {_told(event, names)}, "
            f"the retelling at {_clock(talk.start(difference.start))} has {difference.retold}. The draft keeps the first.",
            options=(
                Option(f"{note.fret}, as first told"),
                Option(f"{difference.retold}, as retold", (Change(event.id, notes=again),)),
            ),
        )


def misnamed(
    events: tuple[Event, ...], assigned: tuple[Assigned, ...], neck: Fretboard, names: tuple[str, ...]
) -> Iterator[Flag]:
    """A note whose fret and string do not give the note that the teacher named in the same breath."""
    for event, one in zip(events, assigned, strict=True):
        note, letter = event.notes[0], one.step.letter
        if not letter or not one.step.letter_at_once or note.fret == "x" or event.how in ("bend", "pre-bend"):
            continue
        if not neck.has(note.string, note.fret):
            continue
        off = (pitch_class(letter) - (neck.pitch(note.string, note.fret) - neck.capo) + 6) % 12 - 6
        if off:
            yield _misnamed(event, note, letter, note.fret + off, names)


def _misnamed(event: Event, note: Note, letter: str, meant: int, names: tuple[str, ...]) -> Flag:
    options = [Option(f"fret {note.fret}")]
    if meant >= 0:
        options.append(
            Option(f"fret {meant}, the {letter}", (Change(event.id, notes=(Note(note.string, meant),)),))
        )
    return _flag(
        "fret-unsure",
        "query",
        [event],
        f"You call this note {letter}, but {_told(event, names)} is another. The draft keeps the fret.",
        tuple(options),
    )


def _clock(seconds: float) -> str:
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"


def _strings(
    events: tuple[Event, ...], assigned: tuple[Assigned, ...], names: tuple[str, ...]
) -> Iterator[Flag]:
    """One query for each run of notes whose string hangs on one decision."""
    run: list[tuple[Event, Assigned]] = []
    for event, one in zip(events, assigned, strict=True):
        unsure = (
            one.margin < costs.ASK
            and bool(one.others)
            and not all(len(v.named) == 1 for v in one.step.voices)
        )
        joins = run and one.strings == run[-1][1].strings and one.step.start - run[-1][1].step.end <= 4
        if run and not (unsure and joins):
            yield _string(run, names)
            run = []
        if unsure:
            run.append((event, one))
    if run:
        yield _string(run, names)


def _string(run: list[tuple[Event, Assigned]], names: tuple[str, ...]) -> Flag:
    events = [event for event, _ in run]
    first = run[0][1]
    taken = _named(first.strings, names)
    other = first.others[0]
    frets = ", ".join(str(n.fret) for e in events for n in e.notes)
    return Flag(
        id="",
        kind="string-unsaid",
        level="query",
        start=events[0].start,
        end=events[-1].end,
        events=tuple(e.id for e in events),
        quote=" ".join(dict.fromkeys(e.quote for e in events)),
        message=f"No string was said for {frets}. The draft takes the {taken}; the {_named(other, names)} would fit too.",
        options=(
            Option(f"on the {taken}"),
            *(Option(f"on the {_named(s, names)}", _moved(events, s)) for s in first.others[:2]),
        ),
    )


def _moved(events: list[Event], strings: Strings) -> tuple[Change, ...]:
    return tuple(
        Change(
            e.id,
            notes=tuple(Note(s, n.fret, n.how, n.bend, n.to) for n, s in zip(e.notes, strings, strict=False)),
        )
        for e in events
        if len(e.notes) == len(strings)
    )


def _counts(events: tuple[Event, ...], assigned: tuple[Assigned, ...]) -> Iterator[Flag]:
    """One query for each run of strokes whose number was left open."""
    paired = zip(events, assigned, strict=True)
    for words, run in groupby(paired, key=lambda pair: pair[1].step.unsure_count):
        if words:
            yield _count([event for event, _ in run], words)


def _count(events: list[Event], words: str) -> Flag:
    return _flag(
        "count-unsure",
        "query",
        events,
        f'How often was left open ("{words}"). The draft writes the first number.',
        (Option(f"as written: {words.split(' or ')[0]} times"), Option(f"{words.split(' or ')[-1]} times")),
    )


def _respelled(event: Event, retold: tuple[Fret, ...], names: tuple[str, ...]) -> Flag:
    spelled = " and ".join(str(fret) for fret in retold)
    notes = tuple(Note(n.string, f, n.how, n.bend, n.to) for n, f in zip(event.notes, retold, strict=False))
    return _flag(
        "told-differently",
        "query",
        [event],
        f"Moving the shape gives {_told(event, names)}, but the words after it say {spelled}. The draft moves the shape.",
        (Option("the shape moved"), Option(f"{spelled}, as said", (Change(event.id, notes=notes),))),
    )


def _how(event: Event, hows: tuple[How, ...], names: tuple[str, ...]) -> Flag:
    options = tuple(Option(how, () if how == event.how else (Change(event.id, how=how),)) for how in hows)
    return _flag(
        "technique-unsure",
        "query",
        [event],
        f"How {_told(event, names)} is played was left open. The draft takes {event.how}.",
        options,
    )


def _amount(event: Event, names: tuple[str, ...]) -> Flag:
    bends = tuple(
        Option(text, () if amount == event.bend else (Change(event.id, bend=amount),))
        for amount, text in sorted(_AMOUNTS.items(), key=lambda pair: pair[0] != event.bend)
    )
    return _flag(
        "amount-unsure",
        "query",
        [event],
        f"How far to bend {_told(event, names)} was not said. The draft bends a whole step.",
        bends,
    )


def _odd(events: tuple[Event, ...], assigned: tuple[Assigned, ...], names: tuple[str, ...]) -> Iterator[Flag]:
    """One query for all notes of one wording whose numbers may be no frets."""
    paired = zip(events, assigned, strict=True)
    for (_, odd), run in groupby(paired, key=lambda pair: (pair[1].step.start, pair[1].step.doubt >= ODD)):
        if odd:
            yield _not_a_fret([event for event, _ in run], names)


def _not_a_fret(events: list[Event], names: tuple[str, ...]) -> Flag:
    told = ", ".join(_told(event, names) for event in events)
    return _flag(
        "fret-unsure",
        "query",
        events,
        f"The words around this are odd for a fret. The draft takes it as {told}.",
        (Option("as written"), Option("no note", tuple(Change(event.id, drop=True) for event in events))),
    )


def _flag(
    kind: FlagKind, level: str, events: list[Event], message: str, options: tuple[Option, ...] = ()
) -> Flag:
    return Flag(
        id="",
        kind=kind,
        level="query" if level == "query" else "note",
        start=events[0].start,
        end=events[-1].end,
        events=tuple(e.id for e in events),
        quote=" ".join(dict.fromkeys(e.quote for e in events)),
        message=message,
        options=options,
    )


def _told(event: Event, names: tuple[str, ...]) -> str:
    return " and ".join(
        f"{n.fret} on the {names[n.string - 1] if n.string <= len(names) else n.string} string"
        for n in event.notes
    )


def _named(strings: Strings, names: tuple[str, ...]) -> str:
    return " and ".join(f"{names[s - 1] if 1 <= s <= len(names) else s} string" for s in strings)
