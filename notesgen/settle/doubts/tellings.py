"""Two tellings, or a fret and a note name, that do not agree; runs that may only retell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from notesgen.lesson.model import Change, Event, Flag, Note, Option
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import pitch_class
from notesgen.settle.assign import Assigned
from notesgen.settle.doubts.wording import Wording, clock, flag
from notesgen.settle.recaps.sift import Difference, Sifted
from notesgen.settle.talk import Talk

OCTAVE = 12  # frets


def told_differently(
    sifted: Sifted, events: Mapping[int, Event], talk: Talk, wording: Wording
) -> Iterator[Flag]:
    """A retelling that does not agree with the first telling. `events` maps a step's place to its event."""
    for difference in sifted.differences:
        if difference.step in events:
            yield _differs(events[difference.step], difference, talk, wording)


def maybe_retold(sifted: Sifted, events: Mapping[int, Event], wording: Wording) -> Iterator[Flag]:
    """A bare run of numbers that nearly agrees with the notes before it, and that nothing announces."""
    for places in sifted.doubtful:
        run = [events[place] for place in places if place in events]
        if run:
            frets = ", ".join(str(note.fret) for event in run for note in event.notes)
            drop = tuple(Change(event.id, drop=True) for event in run)
            yield flag(
                "reference-unsure",
                "query",
                run,
                f"{frets} may be new notes, or the ones before told over. The draft takes them as new.",
                (Option("new notes"), Option("the ones before, told over", drop)),
            )


def misnamed(settled: list[tuple[Event, Assigned]], neck: Fretboard, wording: Wording) -> Iterator[Flag]:
    """A note whose fret and string do not give the note that the teacher named in the same breath."""
    for event, one in settled:
        note, letter = event.notes[0], one.step.letter
        bent = event.how in ("bend", "pre-bend")
        if not letter or not one.step.letter_at_once or note.fret == "x" or bent:
            continue
        if neck.has(note.string, note.fret):
            sounding = neck.pitch(note.string, note.fret) - neck.capo
            off = (pitch_class(letter) - sounding + 6) % 12 - 6
            if off:
                meant = note.fret + off
                yield _misnamed(event, note, letter, meant if meant >= 0 else meant + OCTAVE, wording)


def _differs(event: Event, difference: Difference, talk: Talk, wording: Wording) -> Flag:
    note, when = event.notes[0], clock(talk.start(difference.start))
    again = (Note(note.string, difference.retold), *event.notes[1:])
    return flag(
        "told-differently",
        "query",
        [event],
        f"The first telling has {wording.notes(event)}, the retelling at {when} has {difference.retold}. "
        "The draft keeps the first.",
        (
            Option(f"{note.fret}, as first told"),
            Option(f"{difference.retold}, as retold", (Change(event.id, notes=again),)),
        ),
        quote=f"{event.quote} / {talk.quote(difference.start, difference.end, around=2)}",
    )


def _misnamed(event: Event, note: Note, letter: str, meant: int, wording: Wording) -> Flag:
    change = Change(event.id, notes=(Note(note.string, meant),))
    return flag(
        "fret-unsure",
        "query",
        [event],
        f"You call this note {letter}, but {wording.notes(event)} is another. The draft keeps the fret.",
        (Option(f"fret {note.fret}"), Option(f"fret {meant}, the {letter}", (change,))),
    )
