"""Notes heard and left out, as more likely only spoken of: a query where they may well be played."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from notesgen.lesson.model import Change, Event, Flag, Option, Stroke
from notesgen.settle.doubts.passages import Doubtful, runs
from notesgen.settle.doubts.wording import Wording, flag
from notesgen.settle.talk import Talk

AROUND = 3  # words quoted on each side

Run = tuple[Doubtful, ...]


def maybe_played(
    left: Sequence[Doubtful], kept: Sequence[Doubtful], chance: float, talk: Talk, wording: Wording
) -> Iterator[Flag]:
    """A query for each run of notes left out that are played with at least this probability.

    It points at the kept note beside which they would stand. Both sequences are in playing order.
    """
    places = [note.index for note in kept]
    for run in (passage.notes for passage in runs(left)):
        if kept and max(1 - note.doubt.spoken for note in run) >= chance:
            yield _played(run, _beside(run, kept, places), talk, wording)


def _beside(run: Run, kept: Sequence[Doubtful], places: Sequence[int]) -> Doubtful:
    """The kept note next to the run: of its sentence, if there is one; else the one before it."""
    after = bisect_left(places, run[0].index)
    before, behind = kept[max(0, after - 1)], kept[min(after, len(kept) - 1)]
    sentence = run[0].one.step.sentence
    return behind if behind.one.step.sentence == sentence != before.one.step.sentence else before


def _played(run: Run, beside: Doubtful, talk: Talk, wording: Wording) -> Flag:
    written = tuple(_stroke(note.event) for note in run)
    name, leads = beside.event.id, run[0].index < beside.index
    change = Change(name, before=written) if leads else Change(name, after=written)
    frets = ", ".join(str(note.fret) for one in run for note in one.event.notes)
    strings = dict.fromkeys(string for one in run for string in one.one.strings)
    told = f"{frets} on the {wording.strings(tuple(strings))}"
    return flag(
        "reference-unsure",
        "query",
        [beside.event],
        f"You say {frets} here. The draft takes it as only spoken of, and leaves it out.",
        (Option("only spoken of, or told over"), Option(f"played: {told}", (change,))),
        quote=talk.quote(run[0].one.step.start, run[-1].one.step.end, around=AROUND),
        span=(run[0].event.start, run[-1].event.end),
    )


def _stroke(event: Event) -> Stroke:
    return Stroke(event.notes, event.how, event.bend, event.to, event.marks)
