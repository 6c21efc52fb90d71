"""A string for every voice: the candidates of each step, priced by words and music, and the best path."""

from __future__ import annotations

from itertools import product

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import pitch_class
from notesgen.settle import costs
from notesgen.settle.path import Choice, cheapest_path
from notesgen.settle.places import Place, places_of
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step, Strings, Voice
from notesgen.settle.told import Naming


class Ground(Struct, frozen=True):
    """What the music says of any note: neck, pitch classes of the key, boxes with the item they hold from.

    `leading` is the pitch class of a minor key's raised seventh.
    """

    neck: Fretboard
    key: frozenset[int] | None
    boxes: tuple[tuple[int, dict[int, frozenset[int]]], ...]
    leading: int | None = None

    def is_outside(self, fret: Fret, string: int) -> bool:
        """Whether the note is not in the key; never where no key was said."""
        if self.key is None or not isinstance(fret, int) or not self.neck.has(string, fret):
            return False
        return (self.neck.pitch(string, fret) - self.neck.capo) % 12 not in self.key


class Assigned(Struct, frozen=True):
    """One step with its strings. `margin` tells how clearly they beat `others`, the next best first.

    `slip` is the string and fret that the words give, where the note's name puts it elsewhere.
    """

    step: Step
    strings: Strings
    margin: float
    others: tuple[Strings, ...]
    slip: tuple[int, Fret] | None = None


def assign(
    steps: tuple[Step, ...],
    namings: tuple[Naming, ...],
    sentences: Sentences,
    moving: frozenset[int],
    ground: Ground,
) -> tuple[Assigned, ...]:
    """Strings for all steps, and how sure each is. `moving` are items such as "then"."""
    places = places_of(steps, namings, sentences, moving)
    layers = [_candidates(step, place, ground) for step, place in zip(steps, places, strict=True)]
    chosen = _cheapest(steps, places, layers, ground)
    if any(place.by and place.by.turns for place in places):
        chosen = _likelier(chosen, _cheapest(steps, [_turned(place) for place in places], layers, ground))
    return tuple(_assigned(*parts) for parts in zip(steps, layers, chosen, strict=True))


def _cheapest(
    steps: tuple[Step, ...], places: list[Place], layers: list[list[Strings]], ground: Ground
) -> list[Choice]:
    """The cheapest way through the candidates of all steps."""

    def own(at: int, strings: Strings) -> float:
        opening = _opening_cost(steps[0], places[0], strings, ground.neck.lowest) if at == 0 else 0.0
        return _own_cost(steps[at], places[at], strings, ground) + opening

    def move(at: int, before: Strings, strings: Strings) -> float:
        return _move_cost(steps[at - 1], steps[at], places[at], before, strings)

    return cheapest_path(layers, own, move)


def _turned(place: Place) -> Place:
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


def _candidates(step: Step, place: Place, ground: Ground) -> list[Strings]:
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


def _options(voice: Voice, place: Place, ground: Ground) -> Strings:
    """Where a voice may be: as named; anywhere, where it hangs on a string that is itself in doubt."""
    loose = place.by is not None and len(voice.named) > 1
    return _anywhere(voice.fret, ground) if loose or not voice.named else voice.named


def _anywhere(fret: Fret, ground: Ground) -> Strings:
    strings = range(1, ground.neck.strings + 1)
    if not isinstance(fret, int):
        return tuple(strings)
    return tuple(s for s in strings if ground.neck.has(s, fret)) or tuple(strings)


def _own_cost(step: Step, place: Place, strings: Strings, ground: Ground) -> float:
    """Language cost of strings that nobody named for the step, and how the notes fit key, box and hand."""
    cost = _spread_cost(strings) if all(voice.named for voice in step.voices) else 0.0
    for voice, string in zip(step.voices, strings, strict=True):
        if len(voice.named) != 1 and not step.again:
            cost += _music_cost(step, voice.fret, string, ground)
        if not voice.named and place.force and place.by is None:
            allowed = {s for candidates in place.force for s in candidates}
            cost += costs.IN_FORCE if string in allowed else costs.NOT_IN_FORCE
    return cost


def _spread_cost(strings: Strings) -> float:
    """Strings struck together lie side by side more often than not: "the B and the E"."""
    return costs.SKIPPED_STRING * (max(strings) - min(strings) + 1 - len(strings))


def _opening_cost(step: Step, place: Place, strings: Strings, lowest: int) -> float:
    """What the lesson's first note costs elsewhere than on the string that closes its list, or the lowest."""
    if len(strings) > 1 or step.voices[0].named or place.force:
        return 0.0
    if place.after:
        return 0.0 if strings[0] in place.after else costs.NAMED_AFTER_OTHER + costs.OTHER_LATER
    low = step.frets == (0,) and not step.letter
    return costs.OPEN_NOT_LOWEST if low and strings[0] != lowest else 0.0


def _music_cost(step: Step, fret: Fret, string: int, ground: Ground) -> float:
    if not isinstance(fret, int) or not ground.neck.has(string, fret):
        return 0.0
    cost = 0.0
    pitch = ground.neck.pitch(string, fret) - ground.neck.capo
    if step.letter:
        cost += 0.0 if pitch % 12 == pitch_class(step.letter) else costs.OTHER_NOTE
    elif ground.key and pitch % 12 not in ground.key and not step.outside:
        cost += costs.LEADING_NOTE if pitch % 12 == ground.leading else costs.OUTSIDE_KEY
    if step.bend and step.bend % 1 == 0 and ground.is_outside(fret + int(step.bend), string):
        cost += costs.BEND_OUTSIDE
    box = next((box for at, box in reversed(ground.boxes) if at <= step.start), None)
    if box and fret not in box.get(string, frozenset()) and _near(box, fret):
        cost += costs.OUTSIDE_BOX
    return cost


def _near(box: dict[int, frozenset[int]], fret: int) -> bool:
    """Whether the fret lies within the box's frets at all: else the hand has left it."""
    frets = [f for row in box.values() for f in row]
    return min(frets) <= fret <= max(frets)


def _is_named_anew(before: Step, step: Step) -> bool:
    """Whether both strings were named, and differ: then no slur draws the note before off its own."""
    named, held = step.voices[0].named, before.voices[0].named or before.before
    return bool(named and held) and not set(named) & set(held)


def _move_cost(before: Step, step: Step, place: Place, old: Strings, new: Strings) -> float:
    """What it costs to come from the strings before: words carry a string on, legato stays on it."""
    jump = costs.STRING_JUMP * min(abs(string - other) for string in new for other in old)
    if len(new) > 1:
        return 0.0 if place.carry == costs.NEW_SECTION else jump
    string = new[0]
    struck_again = step.again and step.frets == before.frets and not step.voices[0].named
    if step.is_slurred_on or struck_again:
        across = jump if _is_named_anew(before, step) else costs.LEGATO_ACROSS
        return 0.0 if string in (step.voice or old) else across
    if place.by is not None and len(step.voices[0].named) != 1:
        ways = {way for other in old for way in place.by.ways if string == other + way}
        if not ways:
            return costs.UNRELATED + jump
        return costs.TURNED_BACK if all(way * place.heading < 0 for way in ways) else 0.0
    if step.voices[0].named or place.force:
        return jump + (costs.NOT_LEFT if place.gone and string in old else 0.0)
    closed_elsewhere = bool(place.after) and string not in place.after
    if step.start == before.start and len(old) == 1:
        return 0.0 if string in old else costs.OTHER_STRING + jump
    if string in old:
        from_pair = costs.FROM_PAIR if len(old) > 1 and step.frets != ("x",) else 0.0
        crosses = closed_elsewhere and place.carry > costs.SAME_CLAUSE
        closed = costs.NOT_NAMED_LATER if place.after_cost else costs.NOT_NAMED_AFTER
        return place.carry + from_pair + (closed if crosses else 0.0)
    if string in place.after:
        return place.after_cost + jump
    if string in place.aside:
        return costs.SPOKEN_OF + jump
    other = costs.OTHER_STRING if place.carry == costs.SAME_CLAUSE else costs.OTHER_LATER
    return (costs.NAMED_AFTER_OTHER if place.after else 0.0) + other + jump
