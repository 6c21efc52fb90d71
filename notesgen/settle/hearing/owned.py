"""The picking hand's fingers, each on a string of its own once that was said: "the index has the third"."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.hand import FINGERS
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

THUMB = "thumb"
LAID_OUT = frozenset({4, 5})  # finger and string added up: the index on the third, or on the fourth


def own(telling: Telling, said: Instruction) -> None:
    """Fingers and their strings, in the order said: from here on the finger stands for the string.

    They must lie as the picking hand does, or the words are of fingers that fret.
    """
    found: dict[str, int] = {}
    for name, string in zip(said.all("finger"), said.all("string"), strict=False):
        strings = telling.names.resolve(str(string), ())
        if str(name) != THUMB and len(strings) == 1:
            found[str(name)] = strings[0][0]
    places = {FINGERS.get(finger, 0) + string for finger, string in found.items()}
    if len(places) == 1 and places <= LAID_OUT and "little" not in found:
        telling.owned.update({finger: (string,) for finger, string in found.items()})


def take_turn(telling: Telling, said: Instruction) -> None:
    """A finger named by itself: it is for the note that comes, or strikes its string in a held chord."""
    spoken = [item.text for item in telling.items[said.start : said.end]]
    named = [str(name) for name in said.all("finger") or spoken if str(name) in telling.owned]
    if not named:
        return
    if _struck_last(telling, said):
        own = replace(telling.steps[-1].voices[0], named=telling.owned[named[-1]])
        telling.change_last(voices=(own,))
        return
    telling.picker_at, telling.picker = said.end, named[-1]
    if telling.grip.frets and _is_alone(telling, said):
        for finger in named:
            _strike(telling, said, telling.owned[finger])


def _struck_last(telling: Telling, said: Instruction) -> bool:
    """Whether the finger is that of the note just told: "3 for the middle", "then open, ring"."""
    last, coming = telling.last(), telling.coming
    if last is None or len(last.voices) > 1 or last.voices[0].named or said.start - last.end > 1:
        return False
    link = telling.said_between(last.end, said.start)
    leads_on = coming is not None and coming.start == said.end and bool(coming.all("fret"))
    return bool(link & {*telling.words.by_means}) or (not link and not leads_on)


def _strike(telling: Telling, said: Instruction, strings: Strings) -> None:
    telling.pluck(said, strings[0], placed=False)
    telling.picker_at = -1


def _is_alone(telling: Telling, said: Instruction) -> bool:
    """Whether nothing is said of the finger: a pause or a turn to the next is on both sides of it."""
    opens = telling.items[said.start].before > Break.NONE or _turns(telling, said.start - 1)
    ends = said.end >= len(telling.items) or telling.items[said.end].before > Break.NONE
    last = telling.last()
    in_row = last is not None and (last.stroke or last.bass) and telling.near(said, 1)
    return opens and (ends or _turns(telling, said.end)) and in_row


def _turns(telling: Telling, at: int) -> bool:
    words = {*telling.words.moving_on, *telling.words.joining, *telling.words.going_back}
    return bool(telling.said_between(at, at + 1) & words)
