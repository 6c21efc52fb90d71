"""What is known of a run of notes that bears on whether it is new: each piece a number from 0 to 1.

Each struct also holds the weights of its evidence, in log-odds: how much it speaks against new notes.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from enum import StrEnum
from itertools import pairwise

from msgspec import Struct

from notesgen.grammar.model import WordLists
from notesgen.settle.recaps.blocks import Block, Surroundings
from notesgen.settle.recaps.likeness import LONG, Likeness, likeness
from notesgen.settle.step import Step
from notesgen.speech.items import Break

THREE, TWO = 3, 2
SPREAD = 6  # words a note from which a run is talk rather than a list
DOUBT = 3.0  # cost of a reading that counts as very doubtful
SECTION = 12  # new notes of a section that count as many
SOON = 40  # items within which they are told
FOLLOWING = 8  # notes of the runs behind that count as many
OPENS = 2  # items of a sentence within which its first note opens it
CLOSES = 1  # ... behind the last note, when it closes it


class Ruling(StrEnum):
    """How a run was found to retell: what is told, or how that was announced."""

    HINTED = "hinted"
    REPEATED = "repeated"
    GOES_ON = "goes_on"
    OPENS = "opens"


class Run(Struct, frozen=True, kw_only=True):
    """The run by itself: how many notes, how they are told, where in its sentence.

    `named` and `in_force` are the shares of notes whose string was named, or named before; `in_a_row` that
    of notes told without a word between them; `spread` counts words a note; `copied` are notes that a
    reference tells over.
    """

    alone: float
    two: float
    three: float
    long: float
    named: float
    in_force: float
    slurred: float
    bent: float
    corrected: float
    doubt: float
    spread: float
    in_a_row: float
    copied: float
    opens: float
    closes: float


class Said(Struct, frozen=True, kw_only=True):
    """The words around the run.

    `begins_on` tells that "then" leads it in, `okay` that "okay" does; `player` that "you" play it.
    """

    moving_on: float
    begins_on: float
    again: float
    same: float
    striking: float
    string: float
    okay: float
    player: float


class Course(Struct, frozen=True, kw_only=True):
    """Where the talk has got to: how much of the section is told, what was played or retold just before.

    `announced` is a recap that was announced, `interrupted` tells that notes were retold, and talk followed.
    """

    section: float
    following: float
    before_playing: float
    after_playing: float
    interrupted: float
    announced: float


class Ruled(Struct, frozen=True, kw_only=True):
    """Whether a rule takes the run for a retelling, and which."""

    hinted: float
    repeated: float
    goes_on: float
    opens: float


class Evidence(Struct, frozen=True, kw_only=True):
    """All that is known of a run, or the weights of it."""

    run: Run
    said: Said
    likeness: Likeness
    course: Course
    ruled: Ruled


class State(Struct, frozen=True, kw_only=True):
    """What the sieve knows when it comes to a run: places of the notes before and behind it, what was ruled.

    `new` are the new notes so far, `last_retold` is the place of the last retold one, or -1.
    """

    new: Sequence[int]
    last_retold: int
    following: Sequence[Sequence[int]]
    announced: bool
    ruling: Ruling | None


def evidence(block: Block, state: State, around: Surroundings, words: WordLists) -> Evidence:
    """What speaks for and against new notes in the block; some new ones were told before it."""
    steps = [around.steps[place] for place in block.places]
    return Evidence(
        run=_run(block, steps, around),
        said=_said(block, around, words),
        likeness=likeness(block, state.new, state.following, around),
        course=_course(block, state, around),
        ruled=Ruled(**{str(ruling): float(state.ruling == ruling) for ruling in Ruling}),
    )


def _run(block: Block, steps: Sequence[Step], around: Surroundings) -> Run:
    size = len(steps)
    start, end = around.sentences.start(block.sentence), around.sentences.end(block.sentence)
    beside = sum(first.end == second.start for first, second in pairwise(steps))
    return Run(
        alone=float(size == 1),
        two=float(size == TWO),
        three=float(size == THREE),
        long=float(size >= LONG),
        named=sum(bool(step.voices[0].named) for step in steps) / size,
        in_force=sum(bool(step.before) for step in steps) / size,
        slurred=sum(step.is_told_slurred for step in steps) / size,
        bent=sum(step.is_bent for step in steps) / size,
        corrected=float(any(step.corrected for step in steps)),
        doubt=sum(min(step.doubt / DOUBT, 1.0) for step in steps) / size,
        spread=min((steps[-1].end - steps[0].start) / size / SPREAD, 1.0),
        in_a_row=beside / max(1, size - 1),
        copied=sum(bool(step.copied) for step in steps) / size,
        opens=float(steps[0].start - start <= OPENS),
        closes=float(end - steps[-1].end <= CLOSES),
    )


def _said(block: Block, around: Surroundings, words: WordLists) -> Said:
    run, lead = around.words(block), around.lead(block)
    start, end = around.sentences.start(block.sentence), around.sentences.end(block.sentence)
    sentence = {item.text for item in around.items[start:end]}
    first = around.first_word(block)
    return Said(
        moving_on=_any(run, words.moving_on),
        begins_on=_any(lead[:OPENS], words.moving_on[:1]),
        again=_any(run, words.again),
        same=_any(run, words.sameness),
        striking=_any(sentence, words.striking),
        string=_any(run, words.string),
        okay=float(first in words.sentence_openers and first not in words.summing_up),
        player=_any(lead, (*words.listener, *words.players)),
    )


def _course(block: Block, state: State, around: Surroundings) -> Course:
    steps = around.steps
    start, last = around.start(block), steps[state.new[-1]]
    end = around.sentences.end(block.sentence)
    stretch = around.sentences.stretch(start)
    told = sum(steps[place].section == steps[block.places[0]].section for place in state.new[-SECTION:])
    soon = [place for run in state.following[:TWO] for place in run if _is_soon(around, block, place)]
    return Course(
        section=told / SECTION,
        following=min(len(soon) / FOLLOWING, 1.0),
        before_playing=float(end < len(around.items) and around.items[end].before == Break.GAP),
        after_playing=float(stretch != around.sentences.stretch(last.start)),
        interrupted=float(_is_interrupted(block, state, around)),
        announced=float(state.announced),
    )


def _is_interrupted(block: Block, state: State, around: Surroundings) -> bool:
    """Whether notes were retold since the last new one, but not just before the block."""
    if state.last_retold < state.new[-1]:
        return False
    retold = around.steps[state.last_retold]
    apart = around.sentences.stretch(retold.start) != around.sentences.stretch(around.start(block))
    return apart or block.sentence - retold.sentence > TWO


def _is_soon(around: Surroundings, block: Block, place: int) -> bool:
    """Whether a later note is told soon after the block, before the teacher plays."""
    last, step = around.steps[block.places[-1]], around.steps[place]
    same = around.sentences.stretch(step.start) == around.sentences.stretch(last.start)
    return same and step.start - last.end < SOON


def _any(said: Collection[str], words: Sequence[str]) -> float:
    return float(any(word in said for word in words))
