"""What a sentence's words say about the notes that it tells, and how much of it was read."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from notesgen.grammar.model import WordLists
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step
from notesgen.speech.chart import Edge
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break, Item
from notesgen.speech.numbers import HIGHEST_FRET

REMARKS = frozenset({"aside", "frame"})  # instructions that tell nothing to play


class Spoken(Struct, frozen=True):
    """One sentence: items `start` up to `end`, its words, and which items no idiom reads.

    `heavy` are those of the unread ones that mean something; `before_playing` tells that the talk stops
    behind it.
    """

    start: int
    end: int
    words: frozenset[str]
    unread: frozenset[int]
    heavy: frozenset[int]
    before_playing: bool

    @property
    def unread_share(self) -> float:
        """The share of its items that no idiom reads."""
        return len(self.unread) / max(1, self.end - self.start)


class Reading:
    """Which items and numbers of the talk were read, and which as remarks.

    `numbers` holds one reading of each number said.
    """

    def __init__(
        self,
        items: tuple[Item, ...],
        instructions: Sequence[Instruction],
        numbers: Sequence[Edge],
        words: WordLists,
    ) -> None:
        self.items = items
        self.sentences = Sentences(items)
        self.read = frozenset(at for said in instructions for at in range(said.start, said.end))
        self.remarks = frozenset(
            at for said in instructions if said.kind in REMARKS for at in range(said.start, said.end)
        )
        unread = sum(edge.start not in self.read and may_be_fret(edge.value) for edge in numbers)
        self.unread_numbers = unread / max(1, len(numbers))
        self._light = frozenset(words.light)
        self._spoken: dict[int, Spoken] = {}

    def sentence(self, number: int) -> Spoken:
        """The sentence of that number."""
        if number not in self._spoken:
            self._spoken[number] = self._look(number)
        return self._spoken[number]

    def around(self, step: Step, before: int, after: int) -> range:
        """The items of a step and so many around it, inside its sentence."""
        spoken = self.sentence(step.sentence)
        return range(max(spoken.start, step.start - before), min(spoken.end, step.end + after))

    def said(self, places: range) -> frozenset[str]:
        """The words of these items."""
        return frozenset(self.items[at].text for at in places)

    def _look(self, number: int) -> Spoken:
        start, end = self.sentences.start(number), self.sentences.end(number)
        unread = frozenset(at for at in range(start, end) if at not in self.read)
        return Spoken(
            start=start,
            end=end,
            words=self.said(range(start, end)),
            unread=unread,
            heavy=frozenset(at for at in unread if self.items[at].text not in self._light),
            before_playing=end < len(self.items) and self.items[end].before == Break.GAP,
        )


def may_be_fret(value: object) -> bool:
    """Whether a number's value may be a fret."""
    return isinstance(value, int | float) and value <= HIGHEST_FRET
