"""What was named around each step: the string in force, the one that closes its list, and how it carries."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import groupby

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import LEGATO
from notesgen.settle import costs
from notesgen.settle.heading import heading
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Relation, Step, Strings
from notesgen.settle.strings import SAME
from notesgen.settle.told import Naming

LEAD = 1  # items of a note's own words within which it is moved on to: "and then 7 on the D"
LIST_REACH = 10  # notes over which a string named behind a list may reach back
HABIT = 6  # notes waiting for their string that tell a habit
BEGUN = 4  # ... so many for one that begins a passage, where no string could hold
LIST = 1.0  # ... so much is a list told with its string behind it
LONE = 0.25  # ... and a note
EXCEPTION = 10  # ... so many against one that nothing behind it closes


class Place(Struct, frozen=True):
    """What was named around a step: `force`, strings named alone just before it; `after`, its list's string.

    `after_cost` is the price of taking that one, `carry` of staying on the string of the step before.
    `by` tells how the string was named by that one, `heading` which way the talk crosses the strings: 1
    towards the thick side, -1 towards the thin, 0 when nothing shows it. `aside` was only spoken of. `gone`
    tells that the talk goes on to the strings in force, and so was elsewhere before.
    """

    force: tuple[Strings, ...]
    after: Strings
    after_cost: float
    carry: float
    by: Relation | None
    heading: int = 0
    aside: Strings = ()
    gone: bool = False


def places_of(
    steps: tuple[Step, ...], namings: tuple[Naming, ...], sentences: Sentences, moving: frozenset[int]
) -> list[Place]:
    """For each step, the strings named on their own before it, and those that close its list."""
    places: list[Place] = []
    led = False
    asides = [naming for naming in namings if naming.aside]
    namings = tuple(naming for naming in namings if not naming.aside)
    for at, step in enumerate(steps):
        before = steps[at - 1] if at else None
        aside = _force(step, before, asides)
        force = _force(step, before, namings)
        led = _is_led(step, before, led)
        after, cost = ((), 0.0) if led else _after(steps, at, namings, sentences, moving)
        by = force.by if force and not step.by else step.by
        strings = force.strings if force else (step.voice,) if step.voice else ()
        way = heading(steps, at) if by and not by.turns else 0
        gone = force is not None and force.ahead and by is None
        carry = _carry(step, before, sentences)
        places.append(Place(strings, after, cost, carry, by, way, _only(aside), gone))
    return [_closed(place) for place in places] if _closes_lists(steps, places) else places


def _is_led(step: Step, before: Step | None, led: bool) -> bool:
    """Whether the step goes on in a list that began with its string; `led` tells so of the step before."""
    if before is None or before.sentence != step.sentence or len(before.voices) > 1:
        return False
    return not before.closes if before.voices[0].named else led


def _closes_lists(steps: tuple[Step, ...], places: list[Place]) -> bool:
    """Whether the teacher always names the string behind its notes: what has no string waits for one."""
    open_ones = [
        place
        for step, place in zip(steps, places, strict=True)
        if not (step.voices[0].named or place.force or place.by or step.again or step.how in LEGATO)
    ]
    closed = [place for place in open_ones if place.after]
    begun = sum(place.carry == costs.NEW_SECTION for place in closed)
    evidence = len(closed) + BEGUN * begun + _told_behind(steps)
    return evidence >= HABIT and (len(open_ones) - len(closed)) * EXCEPTION <= evidence


def _told_behind(steps: tuple[Step, ...]) -> float:
    """How much the strings named with their notes speak for a teacher who names them behind, not ahead."""
    single = [step for step in steps if len(step.voices) == 1 and step.voices[0].named and not step.copied]
    evidence = 0.0
    for _, run in groupby(single, lambda step: (step.start, step.end)):
        first, *more = run
        weight = LIST if more else LONE
        evidence += weight if first.closes else -EXCEPTION * weight
    return max(0.0, evidence)


def _closed(place: Place) -> Place:
    """The place as such a teacher means it: the string behind holds, not the one before."""
    if not place.after:
        return place
    return replace(place, after_cost=costs.NAMED_AFTER, carry=max(place.carry, costs.NEXT_SENTENCE))


def _only(aside: Naming | None) -> Strings:
    """Every string of the aside."""
    return tuple(string for candidates in aside.strings for string in candidates) if aside else ()


def _force(step: Step, before: Step | None, namings: Sequence[Naming]) -> Naming | None:
    """The strings named last between the step before and this one."""
    last = bisect_right(namings, step.start, key=lambda naming: naming.at) - 1
    since = before.start if before else -1
    return namings[last] if last >= 0 and namings[last].at > since else None


def _after(
    steps: tuple[Step, ...],
    at: int,
    namings: tuple[Naming, ...],
    sentences: Sentences,
    moving: frozenset[int],
) -> tuple[Strings, float]:
    """The string that closes the step's list in its sentence, and what it costs to take it.

    `moving` are the items at which the talk moves on ("then").
    """
    step = steps[at]
    ahead = [s for s in steps[at + 1 : at + 1 + LIST_REACH] if s.sentence == step.sentence]
    named = next((s for s in ahead if any(v.named for v in s.voices)), None)
    until = named.start if named else sentences.end(step.sentence)
    first = bisect_left(namings, step.end, key=lambda naming: naming.at)
    own = namings[first] if first < len(namings) and namings[first].at < until else None
    if own:
        closes = (
            len(own.strings) == 1
            and not own.ahead
            and _closes(own, step, next((s for s in ahead if s.start > own.at), None))
        )
        found, reach = own.strings[0] if closes else (), own.at
    elif named and named.closes and len(named.voices) == 1 and (named.by is None or named.by == SAME):
        found, reach = named.voices[0].named, named.start + LEAD
    else:
        return (), 0.0
    later = any(item in moving for item in range(step.end, reach + 1))
    return found, costs.NAMED_LATER if later else costs.NAMED_AFTER


def _closes(own: Naming, step: Step, following: Step | None) -> bool:
    """Whether a string named on its own belongs to the note before it: right behind it, far from the next."""
    if following is None:
        return True
    return own.at - step.end <= 1 and following.start - own.end > own.at - step.end + 1


def _carry(step: Step, before: Step | None, sentences: Sentences) -> float:
    if before is None or step.section != before.section:
        return costs.NEW_SECTION
    if sentences.stretch(step.start) != sentences.stretch(before.start):
        return costs.NEW_SECTION
    return costs.SAME_CLAUSE if step.sentence == before.sentence else costs.NEXT_SENTENCE
