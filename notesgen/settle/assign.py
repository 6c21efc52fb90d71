"""A string for every voice: the candidates of each step, priced by words and music, and the best path."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from itertools import product

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, Fret
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import pitch_class
from notesgen.settle import costs
from notesgen.settle.path import Choice, cheapest_path
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Relation, Step, Strings, Voice
from notesgen.settle.strings import SAME
from notesgen.settle.told import Naming

LIST_REACH = 10  # notes over which a string named behind a list may reach back


class Ground(Struct, frozen=True):
    """What the music says of any note: neck, pitch classes of the key, boxes with the item they hold from.

    `leading` is the pitch class of a minor key's raised seventh.
    """

    neck: Fretboard
    key: frozenset[int] | None
    boxes: tuple[tuple[int, dict[int, frozenset[int]]], ...]
    leading: int | None = None


class Assigned(Struct, frozen=True):
    """One step with its strings. `margin` tells how clearly they beat `others`, the next best first.

    `slip` is the string and fret that the words give, where the note's name puts it elsewhere.
    """

    step: Step
    strings: Strings
    margin: float
    others: tuple[Strings, ...]
    slip: tuple[int, Fret] | None = None


class _Place(Struct, frozen=True):
    """What was named around a step: `force`, strings named alone just before it; `after`, its list's string.

    `after_cost` is the price of taking that one, `carry` of staying on the string of the step before.
    `by` tells how the string was named by that one.
    """

    force: tuple[Strings, ...]
    after: Strings
    after_cost: float
    carry: float
    by: Relation | None


def assign(
    steps: tuple[Step, ...],
    namings: tuple[Naming, ...],
    sentences: Sentences,
    moving: frozenset[int],
    ground: Ground,
) -> tuple[Assigned, ...]:
    """Strings for all steps, and how sure each is. `moving` are items such as "then"."""
    places = _places(steps, namings, sentences, moving)
    layers = [_candidates(step, place, ground) for step, place in zip(steps, places, strict=True)]
    chosen = _cheapest(steps, places, layers, ground)
    if any(place.by and place.by.turns for place in places):
        chosen = _likelier(chosen, _cheapest(steps, [_turned(place) for place in places], layers, ground))
    return tuple(_assigned(*parts) for parts in zip(steps, layers, chosen, strict=True))


def _cheapest(
    steps: tuple[Step, ...], places: list[_Place], layers: list[list[Strings]], ground: Ground
) -> list[Choice]:
    """The cheapest way through the candidates of all steps."""

    def own(at: int, strings: Strings) -> float:
        opening = _opening_cost(steps[0], places[0], strings) if at == 0 else 0.0
        return _own_cost(steps[at], places[at], strings, ground) + opening

    def move(at: int, before: Strings, strings: Strings) -> float:
        return _move_cost(steps[at - 1], steps[at], places[at], before, strings)

    return cheapest_path(layers, own, move)


def _turned(place: _Place) -> _Place:
    """The place as a teacher means it for whom "up" is towards the thick strings."""
    if place.by is None or not place.by.turns:
        return place
    return replace(place, by=replace(place.by, ways=tuple(-way for way in place.by.ways)))


def _likelier(by_pitch: list[Choice], by_hand: list[Choice]) -> list[Choice]:
    """One way of saying "up" through the whole lesson; the other one's choices are among the margins."""
    lead = by_hand[0].cost + costs.UP_BY_HAND - by_pitch[0].cost
    better, other = (by_pitch, by_hand) if lead >= 0 else (by_hand, by_pitch)
    return [
        replace(b, margins=tuple(min(m, n + abs(lead)) for m, n in zip(b.margins, o.margins, strict=True)))
        for b, o in zip(better, other, strict=True)
    ]


def _assigned(step: Step, layer: list[Strings], choice: Choice) -> Assigned:
    order = sorted(range(len(layer)), key=lambda at: (at != choice.best, choice.margins[at]))
    return Assigned(step, layer[choice.best], choice.margin, tuple(layer[at] for at in order[1:]))


def _places(
    steps: tuple[Step, ...], namings: tuple[Naming, ...], sentences: Sentences, moving: frozenset[int]
) -> list[_Place]:
    """For each step, the strings named on their own before it, and those that close its list."""
    places = []
    for at, step in enumerate(steps):
        before = steps[at - 1] if at else None
        after, cost = _after(steps, at, namings, sentences, moving)
        force = _force(step, before, namings)
        by = force.by if force and not step.by else step.by
        strings = force.strings if force else ()
        places.append(_Place(strings, after, cost, _carry(step, before, sentences), by))
    return places


def _force(step: Step, before: Step | None, namings: tuple[Naming, ...]) -> Naming | None:
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
        found, reach = named.voices[0].named, named.start
    else:
        return (), 0.0
    legato = any(s.how in LEGATO for s in ahead if s.start <= reach)
    later = legato or any(item in moving for item in range(step.end, reach + 1))
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


def _candidates(step: Step, place: _Place, ground: Ground) -> list[Strings]:
    """Ways to lay the step's voices on strings. Named strings stand as named, even off the neck."""
    options = [_options(voice, place, ground) for voice in step.voices]
    if (
        len(step.voices) > 1
        and len(place.force) == len(step.voices)
        and not any(v.named for v in step.voices)
    ):
        options = list(place.force)
    combos = [combo for combo in product(*options) if len(set(combo)) == len(combo)]
    return combos or [tuple(option[0] for option in options)]


def _options(voice: Voice, place: _Place, ground: Ground) -> Strings:
    """Where a voice may be: as named; anywhere, where it hangs on a string that is itself in doubt."""
    loose = place.by is not None and len(voice.named) > 1
    return _anywhere(voice.fret, ground) if loose or not voice.named else voice.named


def _anywhere(fret: Fret, ground: Ground) -> Strings:
    strings = range(1, ground.neck.strings + 1)
    if not isinstance(fret, int):
        return tuple(strings)
    return tuple(s for s in strings if ground.neck.has(s, fret)) or tuple(strings)


def _own_cost(step: Step, place: _Place, strings: Strings, ground: Ground) -> float:
    """Language cost of strings that nobody named for the step, and how the notes fit key and box."""
    cost = 0.0
    for voice, string in zip(step.voices, strings, strict=True):
        if len(voice.named) != 1:
            cost += _music_cost(step, voice.fret, string, ground)
        if not voice.named and place.force and place.by is None:
            allowed = {s for candidates in place.force for s in candidates}
            cost += costs.IN_FORCE if string in allowed else costs.NOT_IN_FORCE
    return cost


def _opening_cost(step: Step, place: _Place, strings: Strings) -> float:
    """What the lesson's first note costs on a string other than the one that closes its list."""
    free = len(strings) == 1 and not step.voices[0].named and not place.force and bool(place.after)
    return costs.NAMED_AFTER_OTHER + costs.OTHER_LATER if free and strings[0] not in place.after else 0.0


def _music_cost(step: Step, fret: Fret, string: int, ground: Ground) -> float:
    if not isinstance(fret, int) or not ground.neck.has(string, fret):
        return 0.0
    cost = 0.0
    pitch = ground.neck.pitch(string, fret) - ground.neck.capo
    if step.letter:
        cost += 0.0 if pitch % 12 == pitch_class(step.letter) else costs.OTHER_NOTE
    elif ground.key and pitch % 12 not in ground.key and not step.outside:
        cost += costs.LEADING_NOTE if pitch % 12 == ground.leading else costs.OUTSIDE_KEY
    box = next((box for at, box in reversed(ground.boxes) if at <= step.start), None)
    if box and fret not in box.get(string, frozenset()) and _near(box, fret):
        cost += costs.OUTSIDE_BOX
    return cost


def _near(box: dict[int, frozenset[int]], fret: int) -> bool:
    """Whether the fret lies within the box's frets at all: else the hand has left it."""
    frets = [f for row in box.values() for f in row]
    return min(frets) <= fret <= max(frets)


def _move_cost(before: Step, step: Step, place: _Place, old: Strings, new: Strings) -> float:
    """What it costs to come from the strings before: words carry a string on, legato stays on it."""
    if len(new) > 1:
        return 0.0
    string = new[0]
    slurred = step.how in LEGATO and "slide-in" not in step.marks
    struck_again = step.again and step.frets == before.frets and not step.voices[0].named
    if slurred or struck_again:
        return 0.0 if string in old else costs.LEGATO_ACROSS
    jump = costs.STRING_JUMP * min(abs(string - other) for other in old)
    if place.by is not None and len(step.voices[0].named) != 1:
        related = any(string == other + way for other in old for way in place.by.ways)
        return 0.0 if related else costs.UNRELATED + jump
    if step.voices[0].named or place.force:
        return jump
    closed_elsewhere = bool(place.after) and string not in place.after
    if string in old:
        crosses = closed_elsewhere and place.carry > costs.SAME_CLAUSE
        return place.carry + (costs.NOT_NAMED_AFTER if crosses else 0.0)
    if string in place.after:
        return place.after_cost
    other = costs.OTHER_STRING if place.carry == costs.SAME_CLAUSE else costs.OTHER_LATER
    return (costs.NAMED_AFTER_OTHER if place.after else 0.0) + other + jump
