"""Eight ways in which teachers tell notes, each a function from the notes on one string to clauses.

The wordings are our own, after how people were counted to talk; none is taken from the grammar's examples.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec import Struct

from notesgen.lesson.model import How
from tests.outside.tunes.fingering import Place
from tests.outside.tunes.speaker import Speaker


class Stroke(Struct, frozen=True):
    """One place, struck so many times in a row, and how it is reached."""

    place: Place
    how: How = "pick"
    times: int = 1


class Clause(Struct, frozen=True):
    """A few words that tell these strokes."""

    text: str
    strokes: tuple[Stroke, ...]


class Run(Struct, frozen=True):
    """Strokes one after another on one string, and the string before it in the phrase."""

    strokes: Sequence[Stroke]
    former_string: int | None = None

    @property
    def string(self) -> int:
        """The string, 1 the thinnest."""
        return self.strokes[0].place.string


VERBS = ("you've got ", "it's ", "go to ", "over to ", "we land on ")
OPEN_FIRST = ("you've got the open {}", "hit the open {}", "there's the {} open")
OPEN_AFTER = ("then open", "let it ring open", "then that string open")
FRETTED_FIRST = ("the {f} on the {s}", "{s}, {f}", "{f} on the {s}", "the {s} at {f}", "the {o} on the {s}")
FRETTED_AFTER = (
    "{w} {f}",
    "{w} the {f}",
    "same string, {f}",
    "then the {f}",
    "{f} on the same string",
    "{w} the {o} fret",
)

START = ("we start on the {}, ", "start on the {}, ", "beginning on the {}, ", "on the {}, we play ")
LEAP = ("now over on the {}, ", "skip across to the {}, ", "jump to the {}, ")
HIGHER = ("one string higher, {}", "next string up, {}", "up a string, {}", "{} on the next string up")
LOWER = ("one string lower, {}", "next string down, {}", "down a string, {}", "{} on the next string down")
THERE = ("{}", "then {}", "{} on that string too", "{} there as well")
NUMBERED = (
    "fret {n}, {o} string",
    "{o} string at the {f} fret",
    "{n} on string {s}",
    "on string {s} we've got {n}",
)
STILL = (
    "fret {n}, still string {s}",
    "then the {n} there",
    "and {n} on that one",
    "{f} fret, {o} string again",
)

Times = tuple[tuple[str, ...], tuple[str, ...]]
"""Words for two strokes of a note, and for more of them."""

TIMES: Times = (
    (" twice", ", twice", ", two times", ", and again", ", and the same note again"),
    (", {} times", " {} times", ", {} of those"),
)
CLOSE_TIMES: Times = ((" twice", " two times"), (" {} times",))
"""In a list that its string closes, a comma would leave open whether the whole list is meant."""

Voice = Callable[[Speaker, Run], list[Clause]]


def fret_then_string(speaker: Speaker, run: Run) -> list[Clause]:
    """The fifth fret on the B, then the seventh fret on the B."""
    return [_one(speaker, stroke, _fret_on_string(speaker, stroke.place)) for stroke in run.strokes]


def string_then_list(speaker: Speaker, run: Run) -> list[Clause]:
    """On the B string, fifth fret, seventh, eighth."""
    lead = speaker.pick(("on the {}", "the {}", "now the {}")).format(speaker.string(run.string))
    if run.strokes[0].place.fret == 0 and len(run.strokes) == 1:
        return [_one(speaker, run.strokes[0], f"open {speaker.string(run.string)}")]
    told = [
        _one(speaker, stroke, _ordinal_in_list(speaker, stroke.place, not i))
        for i, stroke in enumerate(run.strokes)
    ]
    return [Clause(f"{lead}, {told[0].text}", told[0].strokes), *told[1:]]


def list_then_string(speaker: Speaker, run: Run) -> list[Clause]:
    """5, 7, 8 on the B."""
    name = speaker.string(run.string)
    if run.strokes[0].place.fret == 0 and len(run.strokes) == 1:
        return [_one(speaker, run.strokes[0], f"open {name}")]
    told = [
        _one(speaker, stroke, _bare(speaker, stroke.place), times=CLOSE_TIMES).text for stroke in run.strokes
    ]
    return [Clause(f"{', '.join(told)} on the {name}", tuple(run.strokes))]


def ordinals(speaker: Speaker, run: Run) -> list[Clause]:
    """Second string, fifth fret."""
    return [
        _one(speaker, stroke, _ordinals(speaker, stroke.place, not i)) for i, stroke in enumerate(run.strokes)
    ]


def numbers(speaker: Speaker, run: Run) -> list[Clause]:
    """String two, fret five."""
    return [
        _one(speaker, stroke, _numbers(speaker, stroke.place, not i)) for i, stroke in enumerate(run.strokes)
    ]


def chatty(speaker: Speaker, run: Run) -> list[Clause]:
    """So you've got the 5 on the B, up to the 7 on the same string, and back to 5."""
    clauses, former = [], None
    for stroke in run.strokes:
        clauses.append(_one(speaker, stroke, _chat(speaker, former, stroke.place)))
        former = stroke.place
    return clauses


def neighbours(speaker: Speaker, run: Run) -> list[Clause]:
    """We start on the D string, 5, then 7, next string up, 4."""
    leads = [_neighbour(speaker, run), *(THERE for _ in run.strokes[1:])]
    return [
        _one(speaker, stroke, speaker.pick(lead).format(_bare(speaker, stroke.place)))
        for stroke, lead in zip(run.strokes, leads, strict=True)
    ]


def string_numbers(speaker: Speaker, run: Run) -> list[Clause]:
    """Fret five, second string, then the seven there."""
    return [
        _one(speaker, stroke, _numbered(speaker, stroke.place, not i)) for i, stroke in enumerate(run.strokes)
    ]


VOICES: dict[int, Voice] = {
    1: fret_then_string,
    2: string_then_list,
    3: list_then_string,
    4: ordinals,
    5: numbers,
    6: chatty,
    7: neighbours,
    8: string_numbers,
}


def _one(speaker: Speaker, stroke: Stroke, named: str, times: Times = TIMES) -> Clause:
    """A stroke by its name, or by its technique and fret; how often; now and then with the finger."""
    text = named if stroke.how == "pick" else _legato(speaker, stroke)
    if stroke.times > 1:
        text += speaker.pick(times[stroke.times > 2]).format(speaker.number(stroke.times))
    elif stroke.place.finger and speaker.chance(0.08):
        text += speaker.pick((" with your {}", " with the {}")).format(speaker.finger(stroke.place.finger))
    return Clause(text, (stroke,))


def _legato(speaker: Speaker, stroke: Stroke) -> str:
    if stroke.place.fret == 0:
        return speaker.pick(("pull off to the open string", "pull off to open"))
    fret = speaker.pick((speaker.number(stroke.place.fret), f"the {speaker.ordinal(stroke.place.fret)} fret"))
    if stroke.how == "hammer-on":
        return speaker.pick(
            ("hammer on to {}", "hammer {}", "hammer-on to {}", "and hammer on to {}")
        ).format(fret)
    return speaker.pick(("pull off to {}", "pull-off to {}", "and pull off to {}")).format(fret)


def _fret_on_string(speaker: Speaker, place: Place) -> str:
    name, fret = speaker.string(place.string), speaker.ordinal(place.fret)
    if place.fret == 0:
        return speaker.pick(("the open {}", "open {}", "{} open")).format(name)
    return speaker.pick(
        ("the {} fret on the {}", "{} fret on the {}", "the {} fret of the {}", "{} fret {}")
    ).format(fret, name)


def _ordinal_in_list(speaker: Speaker, place: Place, first: bool) -> str:
    if place.fret == 0:
        return "open"
    if first:
        return f"{speaker.ordinal(place.fret)} fret"
    return speaker.pick(("{}", "{}", "then {}", "the {}")).format(speaker.ordinal(place.fret))


def _bare(speaker: Speaker, place: Place) -> str:
    return speaker.number(place.fret) if place.fret else "open"


def _ordinals(speaker: Speaker, place: Place, first: bool) -> str:
    fret = f"{speaker.ordinal(place.fret)} fret" if place.fret else "open"
    if not first and speaker.chance(0.7) and place.fret:
        return fret
    return f"{speaker.ordinal(place.string)} string{speaker.pick((', ', ' '))}{fret}"


def _numbers(speaker: Speaker, place: Place, first: bool) -> str:
    fret = f"fret {speaker.number(place.fret)}" if place.fret else "open"
    if not first and speaker.chance(0.7) and place.fret:
        return fret
    return f"string {speaker.number(place.string)}{speaker.pick((', ', ' '))}{fret}"


def _chat(speaker: Speaker, former: Place | None, place: Place) -> str:
    """The first note on a string with the string, those after it by where the hand goes."""
    name, fret, ordinal = (
        speaker.string(place.string),
        speaker.number(place.fret),
        speaker.ordinal(place.fret),
    )
    if place.fret == 0:
        return speaker.pick(OPEN_FIRST if former is None else OPEN_AFTER).format(name)
    if former is None:
        return speaker.pick(VERBS) + speaker.pick(FRETTED_FIRST).format(f=fret, s=name, o=ordinal)
    way = "up to" if place.fret > former.fret else "down to"
    return speaker.pick(FRETTED_AFTER).format(w=way, f=fret, o=ordinal)


def _neighbour(speaker: Speaker, run: Run) -> tuple[str, ...]:
    """The string by the one before it: up is towards the thin ones, as the pitch goes."""
    if run.former_string is None or abs(run.former_string - run.string) > 1:
        leads = START if run.former_string is None else LEAP
        name = speaker.string(run.string)
        return tuple(lead.format(name) + "{}" for lead in leads)
    return HIGHER if run.string < run.former_string else LOWER


def _numbered(speaker: Speaker, place: Place, first: bool) -> str:
    ordinal, string = speaker.ordinal(place.string), speaker.number(place.string)
    if place.fret == 0:
        return speaker.pick(("open {o} string", "{o} string open", "string {s} open")).format(
            o=ordinal, s=string
        )
    return speaker.pick(NUMBERED if first else STILL).format(
        n=speaker.number(place.fret), f=speaker.ordinal(place.fret), o=ordinal, s=string
    )
