"""Which strings are struck as one where no string is said: those of the pair or chord told last, or named."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing import abreast
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.hearing.voices import is_pinch
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction

PAIR = 2  # voices of a stroke on two strings


def pair_in_force(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The strings of the pair last named or played; () when there was none."""
    if row := abreast.in_force(telling, said):
        return row
    struck = struck_last(telling)
    if struck is not None and is_pinch(struck, telling.names.count):
        struck = None
    for naming in reversed(telling.namings[-2:]):
        denied = naming.at < telling.apart_at
        if len(naming.strings) > 1 and not denied and (struck is None or naming.end > struck.start):
            return naming.strings
    return tuple(voice.named for voice in struck.voices) if struck else ()


def both_before(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The two strings on which the last two notes lie: "3 on the B, the open E, and then both open"."""
    told = [step.voices[0].named for step in telling.steps[-PAIR:] if len(step.voices) == 1]
    both = telling.said_between(said.start, said.end) & set(telling.words.both)
    apart = len(told) == PAIR and all(told) and told[0] != told[1]
    return tuple(told) if both and apart and telling.near(said, 1) else ()


def strings_struck(telling: Telling) -> tuple[Strings, ...]:
    """The strings of the last stroke of several voices, also of a pinch: "then both at two"."""
    struck = struck_last(telling)
    return tuple(voice.named for voice in struck.voices) if struck else ()


def struck_last(telling: Telling) -> Step | None:
    """The last stroke of several voices, if it was not long ago."""
    return next((step for step in reversed(telling.steps[-LOOK_BACK:]) if len(step.voices) > 1), None)


def with_each_other(pair: tuple[Strings, ...], first: Voice, second: Voice) -> tuple[Voice, Voice]:
    """ "Seven with six": each on its string of the pair, where the words name none."""
    if not second.named and not first.named and len(pair) == PAIR:
        return replace(first, named=pair[0]), replace(second, named=pair[1])
    here = [one for one in pair if {*one} & {*second.named}]
    if len(here) == 1 and not first.named:
        return replace(first, named=_other_of(pair, here[0])), replace(second, named=here[0])
    return first, second if second.named else replace(second, named=_other_of(pair, first.named))


def covers(pair: tuple[Strings, ...], last: Step, strings: Strings) -> bool:
    """Whether the last step's string and this one are the two strings of the pair, one each."""
    if len(pair) != 2:
        return False
    one = set(last.voices[0].named)
    return any(set(a) & one and set(b) & set(strings) for a, b in (pair, pair[::-1]))


def _other_of(pair: tuple[Strings, ...], named: Strings) -> Strings:
    """The string of the pair that is not the named one; () when no pair holds."""
    others = [strings for strings in pair if strings != named]
    return others[0] if len(others) == 1 else ()


def sounds_on(telling: Telling, fret: Fret, strings: tuple[Strings, ...], link: frozenset[str]) -> bool:
    """Whether the voice is one of the stroke before, struck once more: "then 3, same open E"."""
    struck = struck_last(telling)
    if struck is None or len(strings) != 1 or not link & {*telling.words.sameness}:
        return False
    return any(voice.fret == fret and {*voice.named} & {*strings[0]} for voice in struck.voices)
