"""Every decision finds its notes in a draft: the same one, a new one, or one of re-exported captions.

What a decision points at is first known by its words and its very time. The rest is found by likeness: the
words, those around them, the frets, the time. All that was decided on the same captions is laid out together,
in order, no two on the same note, so that a passage said twice keeps its answers apart.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Mapping, Sequence
from statistics import median

from msgspec import Struct
from rapidfuzz import fuzz

from notesgen.decisions.chain import Candidate, best_chain
from notesgen.decisions.model import Decision, Target
from notesgen.decisions.notation import parse_notes
from notesgen.decisions.places import DECIMALS, first_words, frets, last_words, plain, utterances
from notesgen.lesson.model import Fret, Lesson

WINDOW = 40.0  # seconds on either side of where a note is looked for
SECOND = 0.01  # likeness that each second away from there costs: interpolated times err by a few
LEAST = 0.62  # likeness that a note must reach; see _Said._likeness
SAME = 60.0  # likeness of the words alone, of 100, below which they are others
EXACT = 2.0  # the likeness of the very same note: the same words at the same time
NEAREST = 5  # so many sure places near by, on either side, tell how far times have moved

Where = tuple[float, str, int]
"""When an utterance begins, its words, and which of its events is meant."""


class Placed(Struct, frozen=True):
    """A decision and, for each target, the id of the event that it means in this draft, None if gone."""

    decision: Decision
    events: tuple[str | None, ...]

    @property
    def fits(self) -> bool:
        """Whether at least half of what was decided on is still there."""
        found = sum(event is not None for event in self.events)
        return found > 0 and 2 * found >= len(self.events)


class _Told(Struct, frozen=True):
    """A note and its words, made plain: as it was when it was decided on, or as a draft has it."""

    at: float
    nth: int
    words: str
    before: str
    after: str
    frets: tuple[Fret, ...]

    @property
    def telling(self) -> str:
        """The words with the two before and after them: enough to be found once, or seen to stand twice."""
        return " ".join([*self.before.split()[-2:], "|", self.words, "|", *self.after.split()[:2]])


def place(lesson: Lesson, decisions: Sequence[Decision]) -> tuple[Placed, ...]:
    """Each decision with the events that it is about, in the order of `decisions`."""
    said = _Said(lesson)
    made_on: dict[str, list[Decision]] = {}
    for decision in decisions:
        made_on.setdefault(decision.draft, []).append(decision)
    found = {draft: said.find(_anchors(made)) for draft, made in made_on.items()}
    return tuple(
        Placed(one, tuple(found[one.draft].get(_where(target)) for target in one.targets))
        for one in decisions
    )


class _Said:
    """The notes of a draft in order of time, to be found by words, time and frets."""

    def __init__(self, lesson: Lesson) -> None:
        self._events: list[str] = []
        self._told: list[_Told] = []
        self._exact: dict[Where, int] = {}
        for one in utterances(lesson):
            words, before, after = plain(one.words), plain(one.before), plain(one.after)
            for nth, event in enumerate(one.events, start=1):
                self._exact[one.at, one.words, nth] = len(self._told)
                self._events.append(event.id)
                self._told.append(_Told(one.at, nth, words, before, after, frets(event.notes)))
        self._starts = [told.at for told in self._told]

    def find(self, anchors: Mapping[Where, _Told]) -> dict[Where, str]:
        """The ids of the events that are meant; those that mean none are left out."""
        moved = self._moved(anchors.values())
        order = sorted(anchors)  # of words that begin together, the shorter were told first
        chosen = best_chain([self._candidates(where, anchors[where], moved) for where in order])
        return {
            where: self._events[rank] for where, rank in zip(order, chosen, strict=True) if rank is not None
        }

    def _candidates(self, where: Where, anchor: _Told, moved: _Shift) -> list[Candidate]:
        if (rank := self._exact.get(where)) is not None:
            return [Candidate(rank, EXACT)]
        at = anchor.at + moved(anchor.at)
        first, last = (bisect_left(self._starts, at + side) for side in (-WINDOW, WINDOW))
        scored = ((rank, self._likeness(anchor, self._told[rank], at)) for rank in range(first, last))
        return [Candidate(rank, likeness) for rank, likeness in scored if likeness >= LEAST]

    def _likeness(self, anchor: _Told, told: _Told, at: float) -> float:
        """At most 1: words 0.3, those before and after 0.2 each, frets 0.3; less what the time costs.

        Words may be part of the other's: an utterance may fall apart. Of the same words, the same place in
        them is a little likelier.
        """
        part = 0.9 * fuzz.partial_ratio(anchor.words, told.words)
        words = max(fuzz.ratio(anchor.words, told.words), part)
        if words < SAME:
            return 0.0
        alike = 0.3 * words
        alike += 0.2 * (fuzz.ratio(anchor.before, told.before) + fuzz.ratio(anchor.after, told.after))
        alike += 30 * (anchor.frets == told.frets) + (anchor.nth == told.nth)
        return alike / 100 - SECOND * abs(told.at - at)

    def _moved(self, anchors: Iterable[_Told]) -> _Shift:
        """How far times have moved, told by words that are found in one place only."""
        starts: dict[str, set[float]] = {}
        for told in self._told:
            starts.setdefault(told.telling, set()).add(told.at)
        same = ((anchor.at, starts.get(anchor.telling, set())) for anchor in anchors)
        return _Shift((at, next(iter(there)) - at) for at, there in same if len(there) == 1)


class _Shift:
    """How far times have moved, by those near by of which it is known: pairs (time, seconds moved)."""

    def __init__(self, sure: Iterable[tuple[float, float]]) -> None:
        self._sure = sorted(sure)

    def __call__(self, at: float) -> float:
        middle = bisect_left(self._sure, (at, 0.0))
        near = self._sure[max(0, middle - NEAREST) : middle + NEAREST]
        return median(moved for _, moved in near) if near else 0.0


def _anchors(decisions: Sequence[Decision]) -> dict[Where, _Told]:
    """The notes that decisions point at, each once."""
    found: dict[Where, _Told] = {}
    for decision in decisions:
        keys = list(dict.fromkeys((target.at, target.words) for target in decision.targets))
        said = [words for _, words in keys]
        around = {
            key: (
                plain(last_words([decision.before, *said[:at]])),
                plain(first_words([*said[at + 1 :], decision.after])),
            )
            for at, key in enumerate(keys)
        }
        for target in decision.targets:
            before, after = around[target.at, target.words]
            played = frets(parse_notes(target.was) or ())
            told = _Told(target.at, target.nth, plain(target.words), before, after, played)
            found.setdefault(_where(target), told)
    return found


def _where(target: Target) -> Where:
    return round(target.at, DECIMALS), target.words, target.nth
