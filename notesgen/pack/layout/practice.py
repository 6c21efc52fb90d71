"""The hardest spots of a lesson, each with a loop and a ladder of tempos. Computed from the notes alone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, Event, Lesson
from notesgen.pack.layout.sheet import Passage, Sheet, lay_out
from notesgen.pack.layout.titles import titles
from notesgen.pack.layout.troubles import Trouble, troubles

MOST = 5  # spots a lesson: what one sitting has room for
HARD = 0.75  # the least that is worth a loop
AGAIN = 0.25  # what a trouble weighs when the loop has the same one already: it is practised with the first
LONGEST = 8  # events between the first trouble and the last, about what a hand can keep in mind
TOGETHER = 3  # reasons that are told of one spot

METHOD = (
    "Play the loop at the first tempo of its ladder until it is clean three times running, then go up one.",
    "When it goes wrong twice, go down one. Five careful minutes a day do more than an hour at the weekend.",
)
"""How to use a ladder. Common practice, no source."""
HANDS = (
    "Warm up before you play, and start slowly.",
    "Stop when anything hurts or goes numb; rest before you try again.",
    "If it comes back, ask a teacher about how you hold the guitar, and see a doctor.",
)
EARS = (
    "Keep headphones and amplifiers low, and take breaks: a loop played for an evening is hard on ears too.",
    "If your ears ring, stop for the day. If they go on ringing, see a doctor.",
)
"""The usual cautions. Common practice, no source."""


class Ladder(Struct, frozen=True):
    """Tempos in per cent of the tempo at which the lesson plays it: from `start` by `step` up to `goal`."""

    start: int
    step: int
    goal: int

    @property
    def rungs(self) -> tuple[int, ...]:
        """Every tempo, the goal last."""
        return (*range(self.start, self.goal, self.step), self.goal)


class Spot(Struct, frozen=True):
    """A few notes that are worth a loop: the events from `first` to `last` (ids) of the phrase `phrase`.

    The loop takes in a note before and a note after the hard place where the phrase has them, for one has to
    come into it and out of it; it parts no note from the stroke that it sounds on from. `why` and `advice`
    are whole sentences. `difficulty` is the sum of its troubles. `start` is where the lesson teaches it, in
    seconds. `phrase` is "" for events that no phrase holds.
    """

    phrase: str
    first: str
    last: str
    why: str
    advice: str
    difficulty: float
    ladder: Ladder
    start: float


def practice(lesson: Lesson) -> tuple[Spot, ...]:
    """The hardest spots of the lesson, the hardest first; none that overlap, none that are the same notes."""
    found = [spot for phrase, events in _phrases(lesson) for spot in _spots(phrase, events, lesson)]
    chosen: dict[tuple[object, ...], Spot] = {}
    for notes, spot in sorted(found, key=lambda pair: -pair[1].difficulty):
        chosen.setdefault(notes, spot)
    return tuple(chosen.values())[:MOST]


def excerpt(lesson: Lesson, spot: Spot) -> tuple[Passage, Sheet]:
    """The notes of the loop as a passage of their own, and a sheet without questions and repeats for it."""
    sheet = replace(lay_out(lesson, flagged=False), opening=frozenset(), closing={})
    events = next(events for phrase, events in _phrases(lesson) if phrase == spot.phrase)
    ids = [event.id for event in events]
    run = tuple(events[ids.index(spot.first) : ids.index(spot.last) + 1])
    named = zip(lesson.phrases, titles(lesson), strict=True)
    title = next((title for phrase, title in named if phrase.id == spot.phrase), "")
    return Passage(title, spot.start, run, (), (), ()), sheet


def ladder_text(ladder: Ladder, tempo: float | None) -> str:
    """ "60, 70, 80, 90, 100 %", and in beats a minute where the tempo is known."""
    per_cent = ", ".join(map(str, ladder.rungs)) + " %"
    if not tempo:
        return per_cent
    return f"{per_cent} ({', '.join(f'{tempo * rung / 100:.0f}' for rung in ladder.rungs)} beats a minute)"


def _phrases(lesson: Lesson) -> Iterator[tuple[str, list[Event]]]:
    """The events of each phrase, then those that no phrase holds."""
    by_id = {event.id: event for event in lesson.events if event.notes}
    for phrase in lesson.phrases:
        yield phrase.id, [by_id[name] for name in phrase.events if name in by_id]
    held = {name for phrase in lesson.phrases for name in phrase.events}
    yield "", [event for event in by_id.values() if event.id not in held]


def _spots(phrase: str, events: Sequence[Event], lesson: Lesson) -> Iterator[tuple[tuple[object, ...], Spot]]:
    """(what is played, spot) for the hard places of one phrase, the hardest first, clear of each other."""
    taken: set[int] = set()
    strokes = _strokes(events)
    for place in sorted(_places(troubles(events, lesson.facts)), key=lambda place: -_weight(place)):
        first, _ = strokes[max(place[0].first - 1, 0)]
        _, last = strokes[min(max(trouble.last for trouble in place) + 1, len(events) - 1)]
        if _weight(place) >= HARD and taken.isdisjoint(range(first, last + 1)):
            taken.update(range(first, last + 1))
            run = events[first : last + 1]
            yield tuple((event.notes, event.how, event.bend) for event in run), _spot(phrase, run, place)


def _strokes(events: Sequence[Event]) -> list[tuple[int, int]]:
    """For each event the first and the last of those that sound on from one stroke."""
    spans: list[tuple[int, int]] = []
    for index, event in enumerate(events):
        spans.append((spans[-1][0] if spans and event.how in LEGATO else index, index))
    for index in reversed(range(len(spans) - 1)):
        if spans[index][0] == spans[index + 1][0]:
            spans[index] = (spans[index][0], spans[index + 1][1])
    return spans


def _places(found: Sequence[Trouble]) -> Iterator[Sequence[Trouble]]:
    """From each trouble on, all that begin and end within the longest loop."""
    end = 0
    for start, trouble in enumerate(found):
        end = max(end, start + 1)
        limit = max(trouble.first + LONGEST, trouble.last + 1)
        while end < len(found) and found[end].first < limit:
            end += 1
        yield [trouble, *(other for other in found[start + 1 : end] if other.last < limit)]


def _spot(phrase: str, run: Sequence[Event], place: Sequence[Trouble]) -> Spot:
    """The spot, told by its weightiest troubles in playing order."""
    worst = sorted(place, key=lambda trouble: -trouble.weight)
    told = sorted(worst[:TOGETHER], key=lambda trouble: trouble.first)
    return Spot(
        phrase=phrase,
        first=run[0].id,
        last=run[-1].id,
        why=" ".join(dict.fromkeys(trouble.why for trouble in told)),
        advice=worst[0].advice,
        difficulty=round(_weight(place), 3),
        ladder=_ladder(_weight(place)),
        start=run[0].start,
    )


def _ladder(difficulty: float) -> Ladder:
    """The harder, the slower the start. Common practice, no source."""
    return Ladder(start=70 if difficulty < 2 else 60 if difficulty < 3 else 50, step=10, goal=100)


def _weight(place: Sequence[Trouble]) -> float:
    told: set[str] = set()
    weight = 0.0
    for trouble in place:
        weight += trouble.weight * (AGAIN if trouble.why in told else 1)
        told.add(trouble.why)
    return weight
