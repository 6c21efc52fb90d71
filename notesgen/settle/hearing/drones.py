"""A voice that sounds on under the others: "the E is open the whole time, so nine with the open".

It is an open string, or a fretted note that "never moves"; strokes are told by what is new in them: "seven
with it", "then the E on its own".
"""

from __future__ import annotations

from itertools import pairwise

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing import abreast
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction

SAID_WITHIN = 12  # items behind the string within which it is said to ring on
TOLD_WITHIN = 60  # ... within which a note is struck with it
NEXT_TO = 3  # items between a fret and the voice that is struck with it
BY_NAME = 8  # ... where its string is named for it: "8 on the B, same thing, with the E"
HOLDS = 1  # sentences for which "it never moves" waits for its fret


def rings_on(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether the words only say that a string rings open, or a note stays, under all that comes."""
    if len(frets) != 1 or frets[0] == "x" or len(strings) != 1:
        return False
    stays = telling.keeping and telling.sentences.of(said.start) <= telling.kept_until + HOLDS
    fixed = stays and frets[0] != 0
    after = telling.said_between(said.start, said.end + SAID_WITHIN) & {*telling.words.lasting}
    if not after or not (frets[0] == 0 or fixed) or not _is_struck_later(telling, said, fixed):
        return False
    row = abreast.in_force(telling, said) or _named(telling)
    fits = [one for one in row if {*one} & {*strings[0]}]
    telling.drone, telling.drone_at = Voice(frets[0], fits[0] if fits else strings[0]), said.start
    others = tuple(one for one in row if one not in fits)
    if len(others) == 1 and fits:
        abreast.announce(telling, (*others, telling.drone.named), said.start)
    return True


def takes(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether the fret is of the voice that sounds on, struck with the last note: "nine with the open"."""
    last = telling.last()
    if last is None or strings or len(frets) != 1 or not said.all("fret") or telling.correcting is not None:
        return False
    fret = frets[0]
    between = telling.said_between(last.end, slot_of(said, "fret").start)
    near = said.start - last.end <= NEXT_TO and bool(between & {*telling.words.together_with})
    if near and not (in_force(telling) and fret == telling.drone.fret):
        _take_up(telling, fret)
    return near and fret == telling.drone.fret and _join(telling, said, last)


def joins_again(telling: Telling, said: Instruction) -> bool:
    """Whether "with it", "with that top 8" is of the voice that sounds on, struck with the note just told."""
    last, held = telling.last(), frets_of(said, "held")
    if last is None or said.start - last.end > NEXT_TO or (held and held != [telling.drone.fret]):
        return False
    spoken = telling.said_between(said.start, said.end)
    return bool(held or spoken & {*telling.words.it}) and _join(telling, said, last)


def named_with(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether the string that sounds on is struck: "with the E" beside a note, "the E on its own" alone."""
    last = telling.last()
    if not in_force(telling) or len(strings) != 1 or not {*strings[0]} & {*telling.drone.named}:
        return False
    if telling.said_between(said.start, said.end) & {*telling.words.apart}:
        telling.add(said, [telling.drone], origin="derived")
        return True
    links = telling.said_between(said.start - 1, said.start + 1) & {*telling.words.together_with}
    if last is None or not links or said.start - last.end > BY_NAME:
        return False
    return _join(telling, said, last)


def in_force(telling: Telling) -> bool:
    """Whether a voice sounds on in this section."""
    return telling.drone_at >= max(0, telling.sections[-1].end)


def _take_up(telling: Telling, fret: Fret) -> None:
    """Lets a voice of the pair before the last note sound on, where just that one is at the fret."""
    pair = telling.last(2)
    if pair is None or len(pair.voices) != 2 or pair.frets.count(fret) != 1:
        return
    telling.drone, telling.drone_at = pair.voices[pair.frets.index(fret)], pair.start


def _join(telling: Telling, said: Instruction, last: Step) -> bool:
    """Adds the voice that sounds on to the note just told, which lies where the one before it did."""
    if not in_force(telling) or telling.drone_at > last.start or len(last.voices) > 1:
        return False
    first = last.voices[0]
    if {*first.named} & {*telling.drone.named}:
        return False
    pairs = (step.voices for step in reversed(telling.steps) if len(step.voices) > 1)
    pair = next((voices for voices in pairs if telling.drone in voices), ())
    fresh = bool(pair) and not first.named and telling.named_since() is None
    named = next(voice for voice in pair if voice != telling.drone).named if fresh else first.named
    telling.change_last(voices=(replace(first, named=named), telling.drone), end=said.end)
    return True


def _named(telling: Telling) -> tuple[Strings, ...]:
    """The strings named last, where they were two or more."""
    naming = telling.namings[-1] if telling.namings else None
    return naming.strings if naming is not None and len(naming.strings) > 1 else ()


def _is_struck_later(telling: Telling, said: Instruction, fixed: bool) -> bool:
    """Whether a note with "the open", "with it", or with the string by its letter, is told soon."""
    light, links = telling.words.article, telling.words.together_with
    string = [item.text for slot in said.slots for item in telling.items[slot.start : slot.end]]
    letter = [one for one in string if len(one) == 1 and one.isalpha()]
    told = {*letter, *(telling.words.it if fixed else telling.words.open)}
    words = [i.text for i in telling.items[said.end : said.end + TOLD_WITHIN] if i.text not in light]
    return any(one in links and other in told for one, other in pairwise(words))
