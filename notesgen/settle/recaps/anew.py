"""Notes that are played again: a part begins as an earlier one did, or goes "like before".

They are as like what was told as a recap is, but the words say that they are played. What the words leave
out, the strings, is where it was.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.settle.recaps.align import Pairs, align
from notesgen.settle.recaps.blocks import Block
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step
from notesgen.settle.told import Cue, Told

ALIKE = 0.6  # share of a run that agrees with what was told, from which it is that part again
FAR = 2  # sentences after the announcement, or after the run before, in which the next run stands
BEHIND = 2  # items behind a run within which it is said to go like before


class Anew:
    """What was announced to be played again, and how far the part has come."""

    def __init__(self, told: Told, sentences: Sentences) -> None:
        self._steps, self._cues, self._namings = told.steps, told.anew, told.namings
        self._ends = sorted([*(cue.at for cue in told.recaps), *(one.start for one in told.sections)])
        self._sentences = sentences
        self._cue: Cue | None = None
        self._sentence = -1

    def part(self, block: Block, memory: Sequence[int]) -> Pairs | None:
        """The block beside what it plays again, when it does."""
        if not memory or not self._cues:
            return None
        pairs, share = align(self._unplaced(block), memory, block.places)
        goes_on = self._is_going_on(block) and share == 1.0
        announced = goes_on or self._begins(block) or self._is_said_behind(block)
        if share < ALIKE or not announced:
            self._cue = None
            return None
        self._sentence = block.sentence
        if share < 1.0:
            self._cue = None
        return pairs

    def _begins(self, block: Block) -> bool:
        """Whether the part was announced shortly before the block, and nothing else since."""
        start = self._steps[block.places[0]].start
        cues = [cue for cue in self._cues if not cue.weak and cue.at <= start]
        if not cues or block.sentence - self._sentences.of(cues[-1].at) > FAR:
            return False
        told = any(cues[-1].at < step.start < start for step in self._steps)
        self._cue = None if told or any(cues[-1].at < end <= start for end in self._ends) else cues[-1]
        return self._cue is not None

    def _is_going_on(self, block: Block) -> bool:
        """Whether the part that was going on may go on with the block."""
        start = self._steps[block.places[0]].start
        if self._cue is None or block.sentence - self._sentence > FAR:
            return False
        return not any(self._cue.at < end <= start for end in self._ends)

    def _is_said_behind(self, block: Block) -> bool:
        """Whether the block is said to go like before, in the same breath."""
        end = self._steps[block.places[-1]].end
        behind = (cue.at for cue in self._cues if cue.weak)
        return any(end <= at <= end + BEHIND and self._sentences.of(at) == block.sentence for at in behind)

    def _unplaced(self, block: Block) -> Sequence[Step]:
        """The steps, those of the block without a string in force from something else."""
        if self._names_strings(block):
            return self._steps
        steps = list(self._steps)
        for place in block.places:
            steps[place] = replace(steps[place], before=(), settled=())
        return steps

    def _names_strings(self, block: Block) -> bool:
        """Whether the sentence names a string for the block."""
        steps = [self._steps[place] for place in block.places]
        named = any(voice.named for step in steps for voice in step.voices)
        near = (one for one in self._namings if one.sentence == block.sentence)
        return named or any(one.at <= steps[-1].end for one in near)


def _as_first_told(step: Step, first: Step, leads: bool) -> Step:
    """The step with what the words leave out when it is played again: its strings, and how it is played.

    `leads` tells that it is the first note of its run: how it is reached was told with what came before.
    """
    if step.frets != first.frets:
        return step
    settled = first.settled or (0,) * len(first.voices)
    where = [voice.named or (string,) for voice, string in zip(first.voices, settled, strict=False)]
    if (0,) not in where and len(where) == len(step.voices) and not any(voice.named for voice in step.voices):
        voices = tuple(replace(voice, named=named) for voice, named in zip(step.voices, where, strict=True))
        step = replace(step, voices=voices, by=None)
    if leads or step.how != "pick":
        return step
    return replace(step, how=first.how, bend=first.bend, to=first.to)


def played_again(steps: tuple[Step, ...], models: Sequence[tuple[int, int]]) -> tuple[Step, ...]:
    """The steps, those played again as they were first told; `models` holds pairs of their places."""
    placed = list(steps)
    for at, (again, first) in enumerate(models):
        leads = at == 0 or models[at - 1] != (again - 1, first - 1)
        placed[again] = _as_first_told(steps[again], placed[first], leads)
    return tuple(placed)
