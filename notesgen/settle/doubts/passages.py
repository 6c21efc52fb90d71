"""Passages whose notes may be wrong: which notes go into one query, and which passages are worth one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import prod

from msgspec import Struct

from notesgen.lesson.evidence import Doubt
from notesgen.lesson.model import Event
from notesgen.settle.assign import Assigned
from notesgen.settle.trust.clues import Clues

SHARE = 1 / 3  # of the doubt that is asked about, from which a note is part of a passage in doubt
JOINS = 1 / 2  # ... from which notes of one breath join a passage in doubt right beside them
SKIPPED = 1  # surer notes inside a passage that do not end it
APART = 6.0  # seconds between passages of two sentences that are asked about at once
MOST = 8  # notes that such a query may be about
EASIER = 0.5  # of the doubt about the note, from which the string is asked about: it is quickly answered


class Doubtful(Struct, frozen=True):
    """One event with its strings, what is known of it, and how likely it is wrong; `index` is its place.

    `string_said` tells that its string was named: see `strings_said`.
    """

    index: int
    event: Event
    one: Assigned
    clues: Clues
    doubt: Doubt
    string_said: bool = False


class Passage(Struct, frozen=True):
    """Notes of one query, in playing order."""

    notes: tuple[Doubtful, ...]

    @property
    def wrong(self) -> float:
        """The probability that one of them is wrong."""
        return 1 - prod(1 - note.doubt.wrong for note in self.notes)

    @property
    def string(self) -> float:
        """How many of them are on a wrong string, on average."""
        return sum(note.doubt.string for note in self.notes)

    @property
    def note(self) -> float:
        """How many of them are not played, on average."""
        return sum(note.doubt.note for note in self.notes)

    @property
    def by_string(self) -> bool:
        """Whether the question is on which string they are."""
        return any(not note.string_said for note in self.notes) and self.string >= EASIER * self.note


def is_slurred(before: Assigned, one: Assigned) -> bool:
    """Whether a note is slurred from the one before, on its string."""
    return one.step.is_slurred_on and one.strings == before.strings


def strings_said(notes: Sequence[Assigned]) -> list[bool]:
    """Whether each note's string was named: with its fret, just before it, or for what it is slurred from."""
    said: list[bool] = []
    for at, one in enumerate(notes):
        step = one.step
        named = all(len(voice.named) == 1 for voice in step.voices) or len(step.before) == 1
        said.append(named or (at > 0 and said[-1] and is_slurred(notes[at - 1], one)))
    return said


def passages(notes: Sequence[Doubtful], chance: float) -> list[Passage]:
    """The passages that hold a wrong note with at least this probability, in playing order."""
    found: list[Passage] = []
    for run in runs([note for note in notes if note.doubt.wrong >= chance * SHARE]):
        if run.wrong < chance * JOINS:
            continue
        if found and _is_one(found[-1], run):
            found[-1:] = [Passage(found[-1].notes + run.notes)]
        else:
            found.append(run)
    return [passage for passage in found if passage.wrong >= chance]


def runs(notes: Iterable[Doubtful]) -> Iterator[Passage]:
    """The notes in doubt, by sentence, cut where others stand between them."""
    run: list[Doubtful] = []
    for note in notes:
        if run and not _in_one_breath(run[-1], note):
            yield Passage(tuple(run))
            run = []
        run.append(note)
    if run:
        yield Passage(tuple(run))


def _in_one_breath(last: Doubtful, note: Doubtful) -> bool:
    """Whether two notes are told in one sentence, with next to nothing between them."""
    close = note.index - last.index <= 1 + SKIPPED
    return close and note.one.step.sentence == last.one.step.sentence


def _is_one(before: Passage, run: Passage) -> bool:
    """Whether two passages told one right behind the other are one question."""
    last, first = before.notes[-1], run.notes[0]
    at_once = first.index - last.index == 1 and first.event.start - last.event.end <= APART
    return at_once and before.by_string == run.by_string and len(before.notes + run.notes) <= MOST
