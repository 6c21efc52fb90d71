"""Recaps: stretches that retell what was told, and so add no notes.

A recap may be announced ("so that was ...") or not; an unannounced one must repeat the last notes to the
letter. An announced one may differ a little: each difference is a doubt about both tellings.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import groupby

from msgspec import Struct

from notesgen.lesson.model import Fret
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step
from notesgen.settle.told import Cue, Told
from notesgen.speech.items import Break, Item

ANNOUNCED = 0.6  # share of a block that must agree, once a recap is announced
GOING_ON_BLOCK = 0.5  # ... of one sentence of it
FAR_CUE = 4  # sentences ahead for which an announcement holds
GOING_ON = 0.75  # ... of a recap as a whole, once it goes on over several sentences
WINDOW = 8  # ... a short run after "so"
SHORT = 1  # ... a lone note after "so"
BEFORE = 4  # items before a run that say whether it is new
BARE = 4  # notes from which a bare run of numbers may retell freely
HINTED = 0.8  # ... where the sentence only begins with "so"
MEMORY = 60  # notes back to which an unannounced recap may reach
SKIPPED = 0.25  # cost of a told note that a retelling leaves out, against 1 for one told wrong
LONG = 4  # notes from which a repeat anywhere in the memory is a recap

_POINTING = frozenset({"that", "the", "those", "this"})
_NEW = frozenset({"then", "next", "again", "another", "same"})


class Difference(Struct, frozen=True):
    """A retold fret that does not agree with step `step` of the telling."""

    step: int
    retold: Fret
    start: int
    end: int


class Sorted(Struct, frozen=True):
    """Which steps are new (places in the telling), and where the retellings disagree.

    `doubtful` holds places of new steps that may be a recap, or steps before an unannounced recap.
    """

    new: tuple[int, ...]
    differences: tuple[Difference, ...]
    retold: tuple[int, ...]
    confirmed: frozenset[int]


_Pairs = list[tuple[int | None, int]]


class _Block(Struct, frozen=True):
    places: tuple[int, ...]
    sentence: int
    seam: int


def sort_recaps(told: Told, items: tuple[Item, ...], boxed: frozenset[int]) -> Sorted:
    """Tells the new notes from the retold ones. Steps in `boxed` are left out of both."""
    sentences = Sentences(items)
    sifting = _Sifting(told.steps, items, sentences)
    for block in _blocks(told.steps, told.seams):
        if boxed.intersection(block.places):
            sifting.stretch = -1
            continue
        start = told.steps[block.places[0]].start
        cues = [
            cue for cue in told.recaps if cue.at <= start and _reaches(cue, start, sentences, told.sections)
        ]
        if any(not cue.weak for cue in cues):
            sifting.announce(start)
        sifting.sift(block, weak=bool(cues))
    return sifting.sorted()


def _reaches(cue: Cue, start: int, sentences: Sentences, sections: tuple[int, ...]) -> bool:
    """Whether an announcement holds for a block that begins at item `start`: a heading ends it."""
    if any(cue.at < section <= start for section in sections):
        return False
    apart = sentences.of(start) - sentences.of(cue.at)
    same_stretch = sentences.stretch(start) == sentences.stretch(cue.at)
    return apart == 0 or (not cue.weak and apart <= FAR_CUE and same_stretch)


class _Sifting:
    """New and retold notes so far. After an announcement, recaps go on until a sentence does not fit."""

    def __init__(self, steps: tuple[Step, ...], items: tuple[Item, ...], sentences: Sentences) -> None:
        self.steps = steps
        self.items = items
        self.sentences = sentences
        self.new: list[int] = []
        self.retold: list[int] = []
        self.differences: list[Difference] = []
        self.confirmed: set[int] = set()
        self.stretch = -1
        self.reached = -1
        self.agreed = 0.0
        self.told = 0

    def announce(self, start: int) -> None:
        """A recap begins; it may retell anything told so far."""
        self.stretch = self.sentences.stretch(start)
        self.reached = -1
        self.agreed, self.told = 0.0, 0

    def keep(self, block: _Block) -> None:
        """The block is new."""
        self.new.extend(block.places)
        self.stretch = -1

    def sift(self, block: _Block, weak: bool) -> None:
        """Takes the block as a recap, where it retells, or as new."""
        start = self.steps[block.places[0]].start
        if self._resumes(block):
            self.announce(start)
        announced = self.stretch == self.sentences.stretch(start)
        pairs = self._retells(block, announced, weak) if self.new else None
        if pairs is None:
            self.keep(block)
            return
        self.retold.extend(block.places)
        self.stretch = self.sentences.stretch(start)
        self.told += len(pairs)
        self.agreed += sum(
            1 for place, again in pairs if place is not None and _agrees(self.steps, place, again)
        )
        places = [place for place, _ in pairs if place is not None]
        self.confirmed.update(places)
        self.reached = max(places, default=self.reached)
        self.differences += _differences(self.steps, pairs, self.told)

    def _retells(self, block: _Block, announced: bool, weak: bool) -> _Pairs | None:
        """Pairs (place retold or None, place in the block) when the block retells; None when it is new."""
        first = self._first_word(block)
        if announced:
            pairs, share = _align(self.steps, self._ahead(), block.places)
            if self._agrees_enough(share, len(pairs)):
                return pairs
        section = self.steps[block.places[0]].section
        memory = [place for place in self.new[-MEMORY:] if self.steps[place].section == section]
        if not memory:
            return None
        if (weak or first == "so") and not any(self.steps[place].corrected for place in block.places):
            pairs, share = _align(self.steps, memory[-self._window(block) :], block.places)
            if share >= HINTED and not (len(block.places) == 1 and "then" in self._words(block)):
                return pairs
        return self._unannounced(block, memory, first)

    def _resumes(self, block: _Block) -> bool:
        """Whether the block's sentence is the first after a demonstration and begins with "so"."""
        start = self.sentences.start(block.sentence)
        gap = self.items[start].before == Break.GAP or (start and self.items[start - 1].before == Break.GAP)
        return self._first_word(block) == "so" and bool(gap)

    def _ahead(self) -> list[int]:
        """What an announced recap may still retell: it goes forward."""
        return [place for place in self.new if place > self.reached]

    def _agrees_enough(self, share: float, size: int) -> bool:
        """Whether the block opens an announced recap, or the recap as a whole still agrees with it taken in."""
        if self.reached < 0:
            return share >= (HINTED if size < LONG else ANNOUNCED)
        agreed, told = self.agreed + share * size, self.told + size
        return share >= GOING_ON_BLOCK and agreed >= GOING_ON * told

    def _first_word(self, block: _Block) -> str:
        """The word that opens the block's sentence, or the sentence before it where that is one word."""
        start = self.sentences.start(block.sentence)
        if block.seam > start:
            return self.items[block.seam].text
        if block.sentence and start - self.sentences.start(block.sentence - 1) == 1:
            start -= 1
        return self.items[start].text

    def _window(self, block: _Block) -> int:
        """Notes back to which a hinted recap may reach: far for a long one, hardly for a lone note."""
        size = len(block.places)
        return SHORT if size == 1 else MEMORY if size > LONG else max(WINDOW, 2 * size)

    def _unannounced(self, block: _Block, memory: list[int], first: str) -> _Pairs | None:
        steps = self.steps
        pairs, share = _align(steps, memory, block.places)
        if first in _POINTING and share == 1.0 and len(block.places) > 1 and not self._is_named(block):
            return pairs
        words = self._words(block)
        if self._is_bare_run(block) and not words & _NEW:
            pairs, share = _align(steps, memory[-2 * len(block.places) - 2 :], block.places)
            if share >= HINTED:
                return pairs
        if words & _NEW or any(steps[place].again for place in block.places):
            return None
        return _exact(steps, memory, block.places, words)

    def _is_bare_run(self, block: _Block) -> bool:
        """Whether the block is nothing but numbers in a row: "Four six open, five four." """
        steps = [self.steps[place] for place in block.places]
        spoken = steps[-1].end - steps[0].start
        return len(steps) >= BARE and spoken <= len(steps) + 1 and not self._is_named(block)

    def _is_named(self, block: _Block) -> bool:
        return any(voice.named for place in block.places for voice in self.steps[place].voices)

    def _words(self, block: _Block) -> set[str]:
        first = self.steps[block.places[0]].start
        start = max(self.sentences.start(block.sentence), block.seam, first - BEFORE)
        end = min(self.sentences.end(block.sentence), self.steps[block.places[-1]].end + 1)
        return {item.text for item in self.items[start:end]}

    def sorted(self) -> Sorted:
        """The outcome."""
        return Sorted(tuple(self.new), tuple(self.differences), tuple(self.retold), frozenset(self.confirmed))


def _blocks(steps: tuple[Step, ...], seams: tuple[int, ...]) -> list[_Block]:
    """Steps of one sentence, cut where a repeat or an announcement stands between two of them."""
    groups = groupby(
        enumerate(steps), key=lambda pair: (pair[1].sentence, bisect_right(seams, pair[1].start))
    )
    return [
        _Block(tuple(place for place, _ in group), sentence, seams[seam - 1] if seam else -1)
        for (sentence, seam), group in groups
    ]


def _exact(
    steps: tuple[Step, ...], memory: list[int], block: tuple[int, ...], words: set[str]
) -> _Pairs | None:
    """The block when its frets are those of the notes just told, perhaps several times over."""
    if any(steps[place].corrected for place in block):
        return None
    told, known = _heard(steps, block), _heard(steps, memory)
    size = len(told)
    for times in (1, 2, 3, 4):
        length = size // times
        if size % times or (size < 2 and not _restates(steps, block, words)):
            continue
        tail = known[-length:] * times
        if len(tail) == size and all(_alike(steps, a, b) for a, b in zip(tail, told, strict=True)):
            return [(a[0], b[0]) for a, b in zip(tail, told, strict=True)]
    return _somewhere(steps, known, told) if size >= LONG else None


_Heard = tuple[int, Fret]


def _heard(steps: tuple[Step, ...], places: Sequence[int]) -> list[_Heard]:
    """Every fret that is heard in those steps, with its step."""
    return [(place, fret) for place in places for fret in _sounding(steps[place])]


def _somewhere(steps: tuple[Step, ...], known: list[_Heard], told: list[_Heard]) -> _Pairs | None:
    """The block when the same notes stand anywhere in the memory, the latest place first."""
    size = len(told)
    for start in range(len(known) - size, -1, -1):
        stretch = known[start : start + size]
        if all(_alike(steps, a, b) for a, b in zip(stretch, told, strict=True)):
            return [(a[0], b[0]) for a, b in zip(stretch, told, strict=True)]
    return None


def _alike(steps: tuple[Step, ...], one: _Heard, two: _Heard) -> bool:
    """Same fret, and no two different strings named or in force."""
    if one[1] != two[1] or len(steps[two[0]].voices) > len(steps[one[0]].voices):
        return False
    a, b = _strings(steps[one[0]]), _strings(steps[two[0]])
    return not a or not b or bool(a & b)


def _strings(step: Step) -> frozenset[int]:
    named = {string for voice in step.voices for string in voice.named}
    return frozenset(named or step.before)


def _restates(steps: tuple[Step, ...], block: tuple[int, ...], words: set[str]) -> bool:
    """Whether a lone note only says the last one over: "It's 18." after 18."""
    step = steps[block[0]]
    return len(block) == 1 and step.how == "pick" and not words & {"and", "hit", "play", "pick", "back"}


def _align(steps: tuple[Step, ...], memory: list[int], block: tuple[int, ...]) -> tuple[_Pairs, float]:
    """Best alignment of the block with a stretch of the memory (free ends), and the share that agrees."""
    frets = _heard(steps, memory)
    told = _heard(steps, block)
    rows, columns = len(told), len(frets)
    cost = [[0.0] * (columns + 1) for _ in range(rows + 1)]
    for r in range(1, rows + 1):
        cost[r][0] = float(r)
        for c in range(1, columns + 1):
            miss = 0.0 if _alike(steps, frets[c - 1], told[r - 1]) else 1.0
            cost[r][c] = min(cost[r - 1][c - 1] + miss, cost[r - 1][c] + 1, cost[r][c - 1] + SKIPPED)
    end = min(range(columns + 1), key=lambda c: (cost[rows][c], -c))
    return _trace(steps, cost, told, frets, end), 1 - cost[rows][end] / rows


def _sounding(step: Step) -> tuple[Fret, ...]:
    """The frets heard in a step: a trill is told over as its two frets in turn."""
    return (step.frets[0], step.to) * 2 if step.to is not None else step.frets


def _trace(
    steps: tuple[Step, ...], cost: list[list[float]], told: list[_Heard], frets: list[_Heard], column: int
) -> _Pairs:
    pairs: _Pairs = []
    row = len(told)
    while row:
        miss = 1.0
        if column:
            miss = 0.0 if _alike(steps, frets[column - 1], told[row - 1]) else 1.0
        if column and cost[row][column] == cost[row - 1][column - 1] + miss:
            pairs.append((frets[column - 1][0], told[row - 1][0]))
            row, column = row - 1, column - 1
        elif column and cost[row][column] == cost[row][column - 1] + SKIPPED:
            column -= 1
        else:
            pairs.append((None, told[row - 1][0]))
            row -= 1
    return pairs[::-1]


def _agrees(steps: tuple[Step, ...], place: int, again: int) -> bool:
    return steps[again].frets[0] in _sounding(steps[place])


def _differences(steps: tuple[Step, ...], pairs: _Pairs, told: int) -> list[Difference]:
    """Retold frets that disagree, where most of the `told` notes agree and so the disagreement means something."""
    found = [
        Difference(place, steps[again].frets[0], steps[again].start, steps[again].end)
        for place, again in pairs
        if place is not None and not _agrees(steps, place, again)
    ]
    return found if len(found) * 3 <= max(told, len(pairs)) and max(told, len(pairs)) >= 3 else []
