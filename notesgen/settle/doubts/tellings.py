"""Two tellings, or a fret and a note name, that do not agree; runs that may only retell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec.structs import replace

from notesgen.lesson.changes import left_out
from notesgen.lesson.model import BENDS, LEGATO, Change, Event, Flag, Note, Option
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


def maybe_retold(sifted: Sifted, events: Mapping[int, Event]) -> Iterator[Flag]:
    """A run of numbers that (nearly) agrees with the notes just before it, and that nothing announces."""
    for places in sifted.doubtful:
        run = [events[place] for place in places if place in events]
        if run:
            frets = ", ".join(str(note.fret) for event in run for note in event.notes)
            drop = left_out(run)
            yield flag(
                "reference-unsure",
                "query",
                run,
                f"{frets} may be new notes, or the ones before told over. The draft takes them as new.",
                (Option("new notes"), Option("the ones before, told over", drop)),
            )


def maybe_struck_again(sifted: Sifted, events: Mapping[int, Event], wording: Wording) -> Iterator[Flag]:
    """A note that is named over in full right behind: said over, or struck once more."""
    for place in dict.fromkeys(sifted.echoed):
        if place in events:
            event = events[place]
            twice = (Change(event.id, times=2),)
            yield flag(
                "reference-unsure",
                "query",
                [event],
                f"You name {wording.notes(event)} once more. It may be struck again, or only said over. "
                "The draft has it once.",
                (Option("once, and said over"), Option("struck again", twice)),
            )


def misnamed(settled: list[tuple[Event, Assigned]], neck: Fretboard, wording: Wording) -> Iterator[Flag]:
    """A note whose fret and string do not give the note that the teacher named in the same breath.

    Slurred notes that follow it on its string stand or fall with it.
    """
    for place, (event, one) in enumerate(settled):
        note, letter = event.notes[0], one.step.letter
        bent = event.how in BENDS
        if not letter or not one.step.letter_at_once or note.fret == "x" or bent:
            continue
        if neck.has(note.string, note.fret):
            sounding = neck.pitch(note.string, note.fret) - neck.capo
            off = (pitch_class(letter) - sounding + 6) % 12 - 6
            if off:
                meant = note.fret + off
                run = [event, *_slurred(settled[place + 1 :], note.string)]
                yield _misnamed(run, letter, meant if meant >= 0 else meant + OCTAVE, neck, wording)


def _slurred(after: list[tuple[Event, Assigned]], string: int) -> Iterator[Event]:
    """The notes on that string, named by no words, that hammer-ons and the like lead on to."""
    for event, one in after:
        slurred = event.how in LEGATO and len(event.notes) == 1 and event.notes[0].string == string
        if not slurred or one.step.voices[0].named:
            return
        yield event


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


def _misnamed(run: list[Event], letter: str, meant: int, neck: Fretboard, wording: Wording) -> Flag:
    """The question between the fret as said, the fret that gives the note, and strings that give it there."""
    event, note = run[0], run[0].notes[0]
    change = Change(event.id, notes=(Note(note.string, meant),))
    elsewhere = tuple(
        Option(f"fret {note.fret} of the {wording.strings((string,))}", _moved(run, string))
        for string in _giving(letter, note, neck)
    )
    return flag(
        "fret-unsure",
        "query",
        run,
        f"You call this note {letter}, but {wording.notes(event)} is another. The draft keeps the fret.",
        (Option(f"fret {note.fret}"), Option(f"fret {meant}, the {letter}", (change,)), *elsewhere),
    )


def _giving(letter: str, note: Note, neck: Fretboard) -> Iterator[int]:
    """The neighbouring strings on which the note's fret gives a note of that name."""
    for string in (note.string - 1, note.string + 1):
        if not isinstance(note.fret, int) or not 1 <= string <= neck.strings:
            continue
        sounding = neck.pitch(string, note.fret) - neck.capo if neck.has(string, note.fret) else None
        if sounding is not None and sounding % 12 == pitch_class(letter):
            yield string


def _moved(run: list[Event], string: int) -> tuple[Change, ...]:
    return tuple(
        Change(event.id, notes=(replace(note, string=string),)) for event in run for note in event.notes
    )
