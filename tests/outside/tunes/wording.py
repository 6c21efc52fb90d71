"""A fingered tune put into words: greeting and key, headings, phrases note by note, asides between them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import How
from tests.outside.tunes.fingering import Place
from tests.outside.tunes.speaker import Speaker
from tests.outside.tunes.voices import VOICES, Clause, Run, Stroke

LEGATO = 0.12  # the share of notes on the string of the note before, a step or more away, that are slurred
FILLER = 0.12
ASIDE = 0.5  # the share of phrases with a word about something else before them
FILLERS = ("um, ", "uh, ", "so, ", "okay, ", "right, ")
JOINS = (", then ", ", and then ", ", ", ", and ")
GREETINGS = (
    "Hello and welcome back.",
    "Hi everyone, good to see you.",
    "Right, here we are again.",
)
KEYS = ("This one's in {}.", "So this one's in {}, standard tuning.", "We're in {} today.")
ASIDES = (
    "I was eleven when my uncle showed me this one.",
    "This one is from about 1850.",
    "I play it at around 96 beats a minute.",
    "It took me six weeks to get this clean.",
    "My guitar is 30 years old, so forgive the buzz.",
    "There were 4 of us in the band back then.",
    "Give yourself 10 minutes a day on this.",
    "I've had two cups of coffee already.",
)
HEADINGS = (
    "Here's the {} phrase.",
    "Okay, {} phrase.",
    "On to the {} phrase.",
    "So the {} bit goes like this.",
)
CLOSINGS = ("And that sounds like this.", "Let me play that.", "Okay, so slowly.", "")


class Line(Struct, frozen=True):
    """A sentence, the strokes told in it, and the seconds of playing after it."""

    text: str
    strokes: tuple[Stroke, ...] = ()
    pause: float = 0.0


class Talk(Struct, frozen=True):
    """All that is said of one tune in one voice."""

    voice: int
    lines: tuple[Line, ...]

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """All strokes in playing order."""
        return tuple(stroke for line in self.lines for stroke in line.strokes)


def talk(key: str, phrases: Sequence[Sequence[Place]], voice: int, seed: str) -> Talk:
    """The talk about these phrases; the same seed gives the same words."""
    speaker = Speaker(seed)
    lines = [Line(speaker.pick(GREETINGS)), Line(speaker.pick(KEYS).format(key), pause=6.0)]
    for number, phrase in enumerate(phrases, start=1):
        if speaker.chance(ASIDE):
            lines.append(Line(speaker.pick(ASIDES)))
        lines.append(Line(speaker.pick(HEADINGS).format(speaker.ordinal(number))))
        lines.extend(_sentences(speaker, _clauses(speaker, voice, phrase)))
        closing = speaker.pick(CLOSINGS)
        if closing:
            lines.append(Line(closing))
        lines[-1] = replace(lines[-1], pause=3.0 + 3 * speaker.rng.random())
    return Talk(voice, (*lines, Line("And that's the whole thing. See you next time.")))


def _clauses(speaker: Speaker, voice: int, phrase: Sequence[Place]) -> list[Clause]:
    return [clause for run in _runs(_strokes(speaker, phrase)) for clause in VOICES[voice](speaker, run)]


def _runs(strokes: Iterable[Stroke]) -> Iterator[Run]:
    """Strokes on one string taken together."""
    former: int | None = None
    for string, run in groupby(strokes, lambda stroke: stroke.place.string):
        yield Run(list(run), former)
        former = string


def _strokes(speaker: Speaker, phrase: Sequence[Place]) -> Iterator[Stroke]:
    """The notes with equal ones in a row taken together, and some slurred to the one before."""
    former: Place | None = None
    for (string, fret), same in groupby(phrase, lambda place: (place.string, place.fret)):
        places = list(same)
        how: How = "pick"
        if former and former.string == string and len(places) == 1 and speaker.chance(LEGATO):
            how = "hammer-on" if fret > former.fret else "pull-off"
        former = places[0]
        yield Stroke(places[0], how, len(places))


def _sentences(speaker: Speaker, clauses: Sequence[Clause]) -> Iterator[Line]:
    """One to four clauses a sentence."""
    rest = list(clauses)
    while rest:
        size = speaker.rng.randint(1, 4)
        taken, rest = rest[:size], rest[size:]
        text = speaker.pick(FILLERS) if speaker.chance(FILLER) else ""
        text += taken[0].text
        for clause in taken[1:]:
            text += _join(speaker, clause.text) + clause.text
        yield Line(
            text[0].upper() + text[1:] + ".", tuple(stroke for clause in taken for stroke in clause.strokes)
        )


def _join(speaker: Speaker, text: str) -> str:
    """A comma, or a comma and a joining word unless the clause begins with one."""
    return ", " if text.startswith(("and ", "then ", "now ")) else speaker.pick(JOINS)
