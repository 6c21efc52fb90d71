"""References that leave open where they go: an octave with several places, a passage not to be found."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from notesgen.lesson.model import Change, Event, Flag, Note, Option
from notesgen.settle.assign import Assigned
from notesgen.settle.doubts.wording import Wording, flag
from notesgen.settle.step import Step
from notesgen.settle.talk import Talk
from notesgen.speech.instructions import Instruction

Settled = tuple[Event, Assigned]


def moved_elsewhere(settled: Sequence[Settled], wording: Wording) -> Iterator[Flag]:
    """A copied passage that may lie in other places too: one query for all of its notes."""
    for _, copies in groupby(settled, key=_reference):
        run = list(copies)
        places = len(run[0][1].step.elsewhere)
        if not places or len({len(one.step.elsewhere) for _, one in run}) > 1:
            continue
        events = [event for event, _ in run]
        yield flag(
            "reference-unsure",
            "query",
            events,
            f"The words do not say where this copy lies. The draft begins it at {wording.notes(events[0])}.",
            (
                Option(f"from {wording.notes(events[0])}"),
                *(_elsewhere(run, place, wording) for place in range(places)),
            ),
        )


def unwritten(references: Sequence[Instruction], events: Sequence[Event], talk: Talk) -> Iterator[Flag]:
    """A reference whose notes could not be worked out. The query points at the event before it."""
    for said in references:
        start = talk.start(said.start)
        before = [event for event in events if event.start <= start][-1:]
        if before:
            yield flag(
                "reference-unsure",
                "query",
                before,
                "The words speak of what was played before, and the draft adds no notes for them.",
                (
                    Option("nothing is missing"),
                    Option("the last note, once more", (Change(before[0].id, times=2),)),
                ),
                quote=talk.quote(said.start, said.end),
            )


def _reference(settled: Settled) -> tuple[int, bool]:
    step = settled[1].step
    return step.start, step.origin == "derived"


def _elsewhere(run: Sequence[Settled], place: int, wording: Wording) -> Option:
    changes = tuple(Change(event.id, notes=_notes(one.step, place)) for event, one in run)
    first = changes[0].notes or ()
    named = " and ".join(f"{note.fret} on the {wording.string(note.string)}" for note in first)
    return Option(f"from {named}", changes)


def _notes(step: Step, place: int) -> tuple[Note, ...]:
    return tuple(Note(voice.named[0], voice.fret, voice.how, voice.bend) for voice in step.elsewhere[place])
