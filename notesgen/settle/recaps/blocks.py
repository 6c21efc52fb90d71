"""Blocks: runs of notes told in one breath, the units that are new or retold as a whole."""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from msgspec import Struct

from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step
from notesgen.speech.items import Break, Item

BEFORE = 4  # items before a run that say whether it is new
CHANGED = 25  # ... that may announce that it is another than the one before
PLAIN = 0.45  # share of a talk's words, scale boxes aside, that tell notes, from which it does little else
APART = 8  # words between two notes from which they belong to two runs
BARE = 4  # notes from which a bare run of numbers may retell freely


class Block(Struct, frozen=True):
    """Places of steps in one sentence. `seam` is the item of the cut before it, -1 where none is."""

    places: tuple[int, ...]
    sentence: int
    seam: int


def blocks(steps: tuple[Step, ...], seams: tuple[int, ...]) -> list[Block]:
    """Steps of one sentence, cut where a repeat or an announcement stands between two of them, or much talk.

    Captions without punctuation run what is told over and what comes next into one sentence.
    """
    groups = groupby(
        enumerate(steps), key=lambda pair: (pair[1].sentence, bisect_right(seams, pair[1].start))
    )
    return [
        Block(places, sentence, seams[seam - 1] if seam else -1)
        for (sentence, seam), group in groups
        for places in _breaths(steps, tuple(place for place, _ in group))
    ]


def _breaths(steps: tuple[Step, ...], places: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """The places, cut where many words stand between two notes."""
    first = 0
    for at, (one, other) in enumerate(pairwise(places), start=1):
        if steps[other].start - steps[one].end >= APART:
            yield places[first:at]
            first = at
    yield places[first:]


class Surroundings:
    """The words in and around the blocks of one lesson.

    The places `boxed` only tell a scale box; `headings` are the items at which a section begins.
    """

    def __init__(
        self,
        steps: tuple[Step, ...],
        items: tuple[Item, ...],
        sentences: Sentences,
        boxed: frozenset[int] = frozenset(),
        headings: frozenset[int] = frozenset(),
    ) -> None:
        self.steps = steps
        self.items = items
        self.sentences = sentences
        self.headings = headings
        self._told = Counter(step.sentence for step in steps)
        played = [step for place, step in enumerate(steps) if place not in boxed]
        self._telling = len({at for step in played for at in range(step.start, step.end)})

    @property
    def is_plain(self) -> bool:
        """Whether the talk does little but tell notes."""
        return self._telling > PLAIN * len(self.items)

    def told(self, block: Block) -> int:
        """How many notes the block's whole sentence tells."""
        return self._told[block.sentence]

    def start(self, block: Block) -> int:
        """The item at which the block's first note is told."""
        return self.steps[block.places[0]].start

    def first_word(self, block: Block) -> str:
        """The word that opens the block's sentence, or the sentence before it where that is one word."""
        start = self.sentences.start(block.sentence)
        if block.seam > start:
            return self.items[block.seam].text
        if block.sentence and start - self.sentences.start(block.sentence - 1) == 1:
            start -= 1
        return self.items[start].text

    def lead(self, block: Block) -> list[str]:
        """The words of the sentence that lead up to the block."""
        first = max(self.sentences.start(block.sentence), block.seam)
        return [item.text for item in self.items[first : self.start(block)]]

    def words(self, block: Block) -> frozenset[str]:
        """The words of the run, with a few before it and one after, inside its sentence."""
        last = self.steps[block.places[-1]]
        first = max(self.sentences.start(block.sentence), block.seam, self.start(block) - BEFORE)
        end = min(self.sentences.end(block.sentence), last.end + 1)
        return frozenset(item.text for item in self.items[first:end])

    def is_changed(self, block: Block, last: int, changing: Sequence[str]) -> bool:
        """Whether a change was announced since the note at place `last`: "only the tap goes one higher"."""
        start = self.start(block)
        before = self.items[max(self.steps[last].end, start - CHANGED) : start]
        return any(item.text in changing for item in before)

    def after_gap(self, block: Block) -> bool:
        """Whether the block's sentence is the first after a stretch without talk, "so" alone aside."""
        start = self.sentences.start(block.sentence)
        around = self.items[max(0, start - 1) : start + 1]
        return any(item.before == Break.GAP for item in around)

    def is_headed(self, block: Block) -> bool:
        """Whether a heading stands before the block in its sentence: "so on to the next phrase, 7"."""
        start = self.sentences.start(block.sentence)
        return not self.headings.isdisjoint(range(start, self.start(block)))

    def is_named(self, block: Block) -> bool:
        """Whether any single note of the block has its string named; pairs and shapes bring theirs along."""
        steps = [self.steps[place] for place in block.places]
        return any(step.voices[0].named and not _by_letter(step) for step in steps if len(step.voices) == 1)

    def is_bare(self, block: Block) -> bool:
        """Whether the block is nothing but numbers in a row: "Four six open, five four"."""
        steps = [self.steps[place] for place in block.places]
        spoken = steps[-1].end - steps[0].start
        bare = spoken <= len(steps) + 1 or all(map(_by_letter, steps))
        return len(steps) >= BARE and bare and not self.is_named(block)

    def is_struck_in_turn(self, last: Step, step: Step) -> bool:
        """Whether two notes alike are a sentence each, one behind the other: "Open. Open. Open."."""
        bare = all(
            (self.sentences.start(one.sentence), self.sentences.end(one.sentence)) == (one.start, one.end)
            for one in (last, step)
        )
        return bare and step.sentence - last.sentence == 1 and step.frets == last.frets

    def is_struck_over(self, block: Block) -> bool:
        """Whether several notes are each struck equally often: "each of them twice"."""
        steps = [self.steps[place] for place in block.places]
        times = [len(list(strokes)) for _, strokes in groupby(steps, key=lambda step: step.start)]
        fresh = sum(not step.again for step in steps)
        return fresh == len(times) > 1 and min(times) == max(times) > 1

    def is_settled(self, block: Block) -> bool:
        """Whether the block is surely new: a note put right, struck "again" or as it was held, or a copy."""
        steps = [self.steps[place] for place in block.places]
        return any(step.corrected or step.again or step.stroke or step.copied for step in steps)


def _by_letter(step: Step) -> bool:
    """Whether the note was told by its letter alone: nobody named the string that it gets."""
    return bool(step.letter) and step.origin == "derived"
