"""Whether a run of notes is told over: exactly, or nearly, by aligning it with what was told before."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.step import Step, Strings

SKIPPED = 0.25  # cost of a told note that a retelling leaves out, against 1 for one told wrong
NEWLY_NAMED = 0.3  # ... of one whose string only the retelling names
LONG = 4  # notes from which the same run anywhere before counts as its first telling
MOST_TIMES = 4  # how often over a run may be told in one breath

Pairs = list[tuple[int | None, int]]
"""(place retold, or None for a note that was not told before; place of the retelling)."""

_Steps = Sequence[Step] | Mapping[int, Step]
_Heard = tuple[int, Fret]


def align(steps: Sequence[Step], memory: Sequence[int], block: Sequence[int]) -> tuple[Pairs, float]:
    """Best alignment of the block with any stretch of the memory, and the share of it that agrees.

    Edit distance with free ends (Sellers 1980), over the frets that sound.
    """
    known, told = _heard(steps, memory), _heard(steps, block)
    beside = _as_retold(steps, memory, block)
    cost = [[0.0] * (len(known) + 1)]
    for r, again in enumerate(told, start=1):
        above, row = cost[-1], [float(r)]
        for c, first in enumerate(known, start=1):
            miss = _miss(beside, first, again)
            row.append(min(above[c - 1] + miss, above[c] + 1, row[c - 1] + SKIPPED))
        cost.append(row)
    end = min(range(len(known) + 1), key=lambda c: (cost[-1][c], -c))
    return _trace(beside, cost, told, known, end), 1 - cost[-1][end] / len(told)


def repeats(steps: Sequence[Step], memory: Sequence[int], block: Sequence[int]) -> Pairs | None:
    """The block when it is the run just told, perhaps several times over, or a long one told before."""
    told, known = _heard(steps, block), _heard(steps, memory)
    size = len(told)
    for times in range(1, MOST_TIMES + 1):
        length = size // times
        tail = known[-length:] * times if length and size % times == 0 else []
        if len(tail) == size and _all_alike(steps, tail, told):
            return _paired(tail, told)
    if size >= LONG:
        for start in range(len(known) - size, -1, -1):
            if _all_alike(steps, known[start : start + size], told):
                return _paired(known[start : start + size], told)
    return None


def one_slip(steps: Sequence[Step], memory: Sequence[int], block: Sequence[int]) -> Pairs | None:
    """The block when it is just the last notes once more, one of them told otherwise."""
    told = _heard(steps, block)
    tail = _heard(steps, memory)[-len(told) :]
    if len(tail) < len(told):
        return None
    slips = sum(not _alike(steps, first, again) for first, again in zip(tail, told, strict=True))
    return _paired(tail, told) if slips == 1 else None


def agrees(steps: Sequence[Step], place: int, again: int) -> bool:
    """Whether the retold step names a fret that sounds in the step first told."""
    return steps[again].frets[0] in sounding(steps[place])


def sounding(step: Step) -> tuple[Fret, ...]:
    """The frets heard in a step: a trill is told over as its two frets in turn."""
    return (step.frets[0], step.to) * 2 if step.to is not None else step.frets


def _as_retold(steps: Sequence[Step], memory: Sequence[int], block: Sequence[int]) -> Mapping[int, Step]:
    """The steps, those of a block that names no string without one.

    The string in force there is that of the note told last, not of what is told over. One named since is.
    """
    again = {place: steps[place] for place in block}
    bare = not any(voice.named for step in again.values() for voice in step.voices)
    if bare and block and block[0] and steps[block[0]].before in _in_force(steps[block[0] - 1]):
        again = {place: replace(step, before=()) for place, step in again.items()}
    return {place: steps[place] for place in memory} | again


def _in_force(last: Step) -> tuple[Strings, ...]:
    """The strings that a note leaves in force."""
    return (last.before, *(voice.named for voice in last.voices))


def _heard(steps: Sequence[Step], places: Sequence[int]) -> list[_Heard]:
    return [(place, fret) for place in places for fret in sounding(steps[place])]


def _paired(first: list[_Heard], again: list[_Heard]) -> Pairs:
    return [(a[0], b[0]) for a, b in zip(first, again, strict=True)]


def _all_alike(steps: _Steps, first: list[_Heard], again: list[_Heard]) -> bool:
    return all(_alike(steps, a, b) for a, b in zip(first, again, strict=True))


def _miss(steps: _Steps, first: _Heard, again: _Heard) -> float:
    """What it costs to take the one for the other."""
    if not _alike(steps, first, again):
        return 1.0
    retold = steps[again[0]]
    found = any(voice.named for voice in retold.voices) and not _known(steps[first[0]], first[1])
    return NEWLY_NAMED if found else 0.0


def _alike(steps: _Steps, first: _Heard, again: _Heard) -> bool:
    """Same fret, no two different strings named or in force, and no pair told over as one of its notes."""
    if first[1] != again[1] or len(steps[again[0]].voices) > len(steps[first[0]].voices):
        return False
    one, two = _known(steps[first[0]], first[1]), _strings(steps[again[0]], again[1])
    if min(len(steps[place].voices) for place, _ in (first, again)) > 1 and len(one) == len(two):
        return one == two
    return not one or not two or bool(one & two)


def _strings(step: Step, fret: Fret) -> frozenset[int]:
    """The strings on which the fret was named, else those in force."""
    named = {string for voice in step.voices if voice.fret == fret for string in voice.named}
    return frozenset(named or step.before)


def _known(step: Step, fret: Fret) -> frozenset[int]:
    """The same, else the strings that the fret settles on."""
    pairs = zip(step.voices, step.settled, strict=False)
    return _strings(step, fret) or frozenset(string for voice, string in pairs if voice.fret == fret)


def _trace(
    steps: _Steps, cost: list[list[float]], told: list[_Heard], known: list[_Heard], column: int
) -> Pairs:
    pairs: Pairs = []
    row = len(told)
    while row:
        miss = _miss(steps, known[column - 1], told[row - 1]) if column else 1.0
        if column and cost[row][column] == cost[row - 1][column - 1] + miss:
            pairs.append((known[column - 1][0], told[row - 1][0]))
            row, column = row - 1, column - 1
        elif column and cost[row][column] == cost[row][column - 1] + SKIPPED:
            column -= 1
        else:
            pairs.append((None, told[row - 1][0]))
            row -= 1
    return pairs[::-1]
