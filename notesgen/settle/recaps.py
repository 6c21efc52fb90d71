"""Recaps: stretches that retell what was told, and so add no notes.

A recap may be announced ("so that was ...") or not; an unannounced one must repeat the last notes to the
letter. An announced one may differ a little: each difference is a doubt about both tellings.
"""

from __future__ import annotations

from itertools import groupby

from msgspec import Struct

from notesgen.lesson.model import Fret
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step
from notesgen.settle.telling import Told
from notesgen.speech.items import Item

ANNOUNCED = 0.6  # share of a block that must agree, once a recap is announced
HINTED = 0.8  # ... where the sentence only begins with "so"
MEMORY = 60  # notes back to which a recap may reach
LONG = 4  # notes from which a repeat anywhere in the memory is a recap

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


class _Block(Struct, frozen=True):
    places: tuple[int, ...]
    sentence: int


def sort_recaps(told: Told, items: tuple[Item, ...]) -> Sorted:
    """Tells the new notes from the retold ones."""
    sentences = Sentences(items)
    new: list[int] = []
    retold: list[int] = []
    differences: list[Difference] = []
    confirmed: set[int] = set()
    announced_in = -1
    for block in _blocks(told.steps):
        start = told.steps[block.places[0]].start
        if any(_between(cue, start, sentences) for cue in told.recaps):
            announced_in = sentences.stretch(start)
        announced = announced_in == sentences.stretch(start)
        match = _retells(told, items, sentences, block, new, announced)
        if match is None:
            announced_in = -1
            new.extend(block.places)
        else:
            retold.extend(block.places)
            confirmed.update(place for place, _ in match if place is not None)
            differences += _differences(told.steps, match)
    return Sorted(tuple(new), tuple(differences), tuple(retold), frozenset(confirmed))


def _blocks(steps: tuple[Step, ...]) -> list[_Block]:
    numbered = enumerate(steps)
    return [
        _Block(tuple(place for place, _ in group), sentence)
        for sentence, group in groupby(numbered, key=lambda pair: pair[1].sentence)
    ]


def _between(cue: int, start: int, sentences: Sentences) -> bool:
    """Whether the announcement stands in the block's sentence or the one before, ahead of its notes."""
    return cue <= start and 0 <= sentences.of(start) - sentences.of(cue) <= 1


_Pairs = list[tuple[int | None, int]]


def _retells(
    told: Told, items: tuple[Item, ...], sentences: Sentences, block: _Block, new: list[int], announced: bool
) -> _Pairs | None:
    """Pairs (place retold or None, place in the block) when the block retells; None when it is new."""
    steps = told.steps
    memory = [place for place in new[-MEMORY:]]
    if not memory:
        return None
    first = items[sentences.start(block.sentence)].text
    words = {item.text for item in items[sentences.start(block.sentence) : sentences.end(block.sentence)]}
    if announced or first in ("so", "that's"):
        pairs, share = _align(steps, memory, block.places)
        wanted = ANNOUNCED if announced else HINTED
        if share >= wanted and (announced or len(block.places) > 1):
            return pairs
    if words & _NEW or any(step.again for step in (steps[p] for p in block.places)):
        return None
    return _exact(steps, memory, block.places, words)


def _exact(steps: tuple[Step, ...], memory: list[int], block: tuple[int, ...], words: set[str]) -> _Pairs | None:
    """The block when its frets are those of the notes just told, perhaps several times over."""
    if any(steps[place].corrected for place in block):
        return None
    size = len(block)
    for length in (size, *(size // times for times in (2, 3, 4) if size % times == 0)):
        if length < 2 and not _restates(steps, memory, block, words):
            continue
        tail = memory[-length:] * (size // max(1, length))
        if len(tail) == size and all(_alike(steps[a], steps[b]) for a, b in zip(tail, block, strict=True)):
            return list(zip(tail, block, strict=True))
    if size >= LONG:
        pairs, share = _align(steps, memory, block)
        if share == 1.0 and all(place is not None for place, _ in pairs):
            return pairs
    return None


def _restates(steps: tuple[Step, ...], memory: list[int], block: tuple[int, ...], words: set[str]) -> bool:
    """Whether a lone note only says the last one over: "It's 18." after 18."""
    step = steps[block[0]]
    return len(block) == 1 and step.how == "pick" and not words & {"and", "hit", "play", "pick", "back"}


def _alike(one: Step, two: Step) -> bool:
    """Same frets, and no two different strings named."""
    if one.frets != two.frets:
        return False
    pairs = zip(one.voices, two.voices, strict=True)
    return all(not a.named or not b.named or set(a.named) & set(b.named) for a, b in pairs)


def _align(steps: tuple[Step, ...], memory: list[int], block: tuple[int, ...]) -> tuple[_Pairs, float]:
    """Best alignment of the block with a stretch of the memory (free ends), and the share that agrees."""
    frets = [(place, fret) for place in memory for fret in steps[place].frets]
    told = [(place, fret) for place in block for fret in steps[place].frets]
    rows, columns = len(told), len(frets)
    cost = [[0.0] * (columns + 1) for _ in range(rows + 1)]
    for r in range(1, rows + 1):
        cost[r][0] = float(r)
        for c in range(1, columns + 1):
            miss = 0.0 if told[r - 1][1] == frets[c - 1][1] else 1.0
            cost[r][c] = min(cost[r - 1][c - 1] + miss, cost[r - 1][c] + 1, cost[r][c - 1] + 0.6)
    end = min(range(columns + 1), key=lambda c: (cost[rows][c], -c))
    return _trace(cost, told, frets, end), 1 - cost[rows][end] / rows


def _trace(
    cost: list[list[float]], told: list[tuple[int, Fret]], frets: list[tuple[int, Fret]], column: int
) -> _Pairs:
    pairs: _Pairs = []
    row = len(told)
    while row:
        miss = 1.0
        if column:
            miss = 0.0 if told[row - 1][1] == frets[column - 1][1] else 1.0
        if column and cost[row][column] == cost[row - 1][column - 1] + miss:
            pairs.append((frets[column - 1][0], told[row - 1][0]))
            row, column = row - 1, column - 1
        elif column and cost[row][column] == cost[row][column - 1] + 0.6:
            column -= 1
        else:
            pairs.append((None, told[row - 1][0]))
            row -= 1
    return pairs[::-1]


def _differences(steps: tuple[Step, ...], pairs: _Pairs) -> list[Difference]:
    """Retold frets that disagree, where most of the block agrees and so the disagreement means something."""
    found = [
        Difference(place, steps[again].frets[0], steps[again].start, steps[again].end)
        for place, again in pairs
        if place is not None and len(steps[place].voices) == len(steps[again].voices) == 1
        and steps[place].frets != steps[again].frets
    ]
    return found if len(pairs) >= 3 and len(found) * 3 <= len(pairs) else []
