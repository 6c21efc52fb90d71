"""What is hard for the hands in a run of events: each trouble measured, with the words for it.

A weight of 1 is worth a loop of its own. That the work of the fretting hand grows with its moves and with the
span of its fingers is the model of Sayegh 1989 ("Fingering for string instruments with the optimum path
paradigm"); how much each kind weighs is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby, pairwise
from typing import TypeVar

from msgspec import Struct

from notesgen.lesson.model import BENDS, LEGATO, Event, Facts
from notesgen.pack.layout.strings import string_name
from notesgen.pack.layout.strokes import Stroke, strokes
from notesgen.pack.layout.words import AMOUNTS, count, often

REACH = 3  # frets from the first finger to the fourth, a finger a fret
SHORTEST_SHIFT = 2  # frets; one fret more is a stretch of the little finger
SHORTEST_CHAIN = 3  # notes that sound on from one stroke
MOST_STROKES = 6  # on one place in a row, before it is an exercise in keeping them even
SCALE = 648.0  # millimetres from nut to bridge, a common guitar
T = TypeVar("T")


class Trouble(Struct, frozen=True):
    """A hard place from event `first` to event `last`, as indexes of the run. `why` is told to the student,
    and `advice` with it where this is the worst of the place; both are whole sentences."""

    first: int
    last: int
    weight: float
    why: str
    advice: str


def troubles(events: Sequence[Event], facts: Facts) -> list[Trouble]:
    """All troubles of one phrase, in playing order."""
    found = [trouble for measure in MEASURES for trouble in measure(events, facts)]
    return sorted(found, key=lambda trouble: (trouble.first, trouble.last))


def shifts(events: Sequence[Event], facts: Facts) -> Iterator[Trouble]:
    """Where the hand must move along the neck: the least number of frets that the first finger travels.

    The hand covers four frets. Until a second note tells where it lies, it may lie in more than one way, so
    what is kept is the range of frets at which the first finger may be (lowest, highest). A slide takes the
    hand along, which is half the work.
    """
    at: tuple[int, int] | None = None
    before: Sequence[int] = ()
    for index, event in enumerate(events):
        frets = _fretted(event)
        if not frets:
            continue
        now = (min(max(1, max(frets) - REACH), min(frets)), min(frets))
        move = 0 if at is None else max(now[0] - at[1], at[0] - now[1])
        at = (max(at[0], now[0]), min(at[1], now[1])) if at and move <= 0 else now
        if move >= SHORTEST_SHIFT:
            slid = event.how == "slide"
            yield _shift(index, move, min(before), min(frets), slid)
        before = frets


def _shift(index: int, move: int, left: int, reached: int, slid: bool) -> Trouble:
    way = f"{'up' if reached > left else 'down'} from fret {left} to fret {reached}"
    weight = min(move / 4, 2.0) / (2 if slid else 1)
    if slid:
        return Trouble(index - 1, index, weight, f"The slide takes the hand {way}.", "Look where it ends.")
    return Trouble(
        index - 1, index, weight, f"The hand moves {way}.", "Look at the fret you go to before you leave."
    )


def stretches(events: Sequence[Event], facts: Facts) -> Iterator[Trouble]:
    """More frets at once than fingers: struck together, or hammered and pulled with the others held down.

    Weighed by how wide it is. The distance of fret n from the nut is `SCALE * (1 - 2 ** (-n / 12))`, as equal
    temperament has it, so the same stretch is wider near the nut.
    """
    for index, event in enumerate(events):
        frets = _fretted(event)
        bound = index > 0 and _bound(events[index - 1], event)
        held = [*frets, *(_fretted(events[index - 1]) if bound else ())]
        if held and max(held) - min(held) > REACH:
            low, high = min(held), max(held)
            yield Trouble(
                index - 1 if bound else index,
                index,
                _width(low + facts.capo, high + facts.capo) / 100,
                f"The fingers stretch from fret {low} to fret {high}.",
                "Keep the thumb low behind the neck, and stop if it pulls.",
            )


def _bound(before: Event, event: Event) -> bool:
    """Whether one finger stays down while another hammers or pulls."""
    shared = {note.string for note in before.notes} & {note.string for note in event.notes}
    return bool(shared) and before.how != "tap" and event.how in ("hammer-on", "pull-off")


def _width(low: int, high: int) -> float:
    """Millimetres between two frets."""
    return float(SCALE * (2 ** (-low / 12) - 2 ** (-high / 12)))


def chains(events: Sequence[Event], facts: Facts) -> Iterator[Trouble]:
    """Notes that sound on from one stroke, each a hammer-on, a pull-off or a slide."""
    for first, last in _runs(events, lambda event: event.how in LEGATO and event.how != "release"):
        length = last - first + 1
        if first and length >= SHORTEST_CHAIN:
            string = string_name(facts.tuning, events[first].notes[0].string)
            yield Trouble(
                first - 1,
                last,
                min(length / 4, 2.5),
                f"{count(length).capitalize()} notes follow from one stroke on the {string}.",
                "Make each as loud as the first.",
            )


def bends(events: Sequence[Event], facts: Facts) -> Iterator[Trouble]:
    """Bends, by how far they go; harder when struck already bent, or beside a note that stays."""
    for index, event in enumerate(events):
        played = strokes(event)
        for stroke in played:
            if stroke.how in BENDS:
                yield _bend(index, stroke, len(played) > 1)


def _bend(index: int, stroke: Stroke, beside: bool) -> Trouble:
    amount = 1.0 if stroke.bend is None else stroke.bend
    far = "" if stroke.bend is None else f" up {AMOUNTS.get(amount, f'{amount / 2:g} steps')}"
    ready = stroke.how == "pre-bend"
    why = f"The {stroke.fret} is bent{far}" + (" before it is struck." if ready else ".")
    target = int(stroke.fret) + int(amount) if stroke.fret != "x" and float(amount).is_integer() else None
    advice = f"Play fret {target} first, and bend until it sounds the same." if target else "Bend slowly."
    weight = amount / 2 + (0.5 if ready else 0) + (0.5 if beside else 0)
    return Trouble(index, index, weight, why, advice)


def skips(events: Sequence[Event], facts: Facts) -> Iterator[Trouble]:
    """The picking hand jumps over strings, once or several times running."""
    jumps = [_jumped(before, event) for before, event in pairwise(events)]
    for first, last in _runs(jumps, bool):
        most = max(jumps[first : last + 1])
        over = "a string" if most == 1 else f"{count(most)} strings"
        times = last - first + 1
        running = "" if times == 1 else f", {often(times)} running"
        yield Trouble(
            first,
            last + 1,
            min(0.3 * times + 0.1 * most, 1.0),
            f"The picking hand jumps over {over}{running}.",
            "Let the picking hand rest lightly on the strings that it leaves out.",
        )


def _jumped(before: Event, event: Event) -> int:
    """The strings left out between two single strokes."""
    single = len(before.notes) == len(event.notes) == 1 and event.how not in LEGATO
    return max(abs(before.notes[0].string - event.notes[0].string) - 1, 0) if single else 0


def repeated(events: Sequence[Event], facts: Facts) -> Iterator[Trouble]:
    """The same place struck many times in a row."""
    same = [before.notes == event.notes and event.how == "pick" for before, event in pairwise(events)]
    for first, last in _runs(same, bool):
        strikes = last - first + 2
        if strikes >= MOST_STROKES:
            yield Trouble(
                first,
                last + 1,
                min(strikes / 8, 1.5),
                f"The same stroke comes {often(strikes)} in a row.",
                "Keep the strokes even, and the wrist loose.",
            )


MEASURES: tuple[Callable[[Sequence[Event], Facts], Iterator[Trouble]], ...] = (
    shifts,
    stretches,
    chains,
    bends,
    skips,
    repeated,
)


def _fretted(event: Event) -> list[int]:
    """The frets on which fingers of the fretting hand lie; a tap is the other hand's."""
    return [
        stroke.fret
        for stroke in strokes(event)
        if isinstance(stroke.fret, int) and stroke.fret > 0 and stroke.how != "tap"
    ]


def _runs(items: Iterable[T], wanted: Callable[[T], bool]) -> Iterator[tuple[int, int]]:
    """The first and last index of each run of wanted items."""
    for found, run in groupby(enumerate(items), key=lambda pair: wanted(pair[1])):
        indexes = [index for index, _ in run]
        if found:
            yield indexes[0], indexes[-1]
