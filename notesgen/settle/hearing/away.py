"""The next note by a recipe from the one just told: "over two strings and up two", "and the octave"."""

from __future__ import annotations

from notesgen.settle.hearing import moved
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Voice
from notesgen.speech.instructions import Instruction

TOLD = "told"  # the slot "label" of an octave whose place stands behind the words
REACH = 12  # items back to the note from which the way is counted
SPELLED = 24  # items within which its place is told after all
AT_ONCE = 4  # ... where only its fret is told
RULE_WITHIN = 4  # items behind a recipe that tell that it is a rule: "every time"
OCTAVE = 12  # frets, and semitones
SHAPE = 2  # strings that an octave shape spans; common practice, no source
HIGHEST = 24  # fret; common practice, no source

Place = tuple[int, int]
"""A string and its fret."""


def away(telling: Telling, said: Instruction) -> None:
    """Adds the note to which the recipe leads, unless its place is told behind it; asks where it is open."""
    last = moved.settled(telling.steps)[-1] if telling.steps else None
    if last is None or len(last.voices) != 1 or last.frets[0] == "x" or said.text("label") == TOLD:
        return
    if (
        said.start - last.end > REACH
        or telling.octaves_in == len(telling.sections)
        or _is_rule(telling, said)
    ):
        return
    if len(last.voices[0].named) != 1:
        telling.unwritten.append(said)
        return
    places = _places(telling, said, (last.voices[0].named[0], int(last.frets[0])))
    if _is_told(telling, said, last, places):
        return
    if not places:
        telling.unwritten.append(said)
        return
    voices = [Voice(fret, (string,)) for string, fret in places]
    others = tuple((voice,) for voice in voices[1:])
    telling.add(
        said, voices[:1], origin="derived", elsewhere=others, unsure_fret=_other_fret(said, last, places)
    )


def _places(telling: Telling, said: Instruction, here: Place) -> list[Place]:
    """Where the note may lie, likeliest first: one place where the way or the string is told."""
    over, back = (said.whole("over") or 0), (said.whole("back") or 0)
    named = telling.strings_of(said)
    if over or back:
        string = here[0] - over + back
        if not 1 <= string <= telling.names.count:
            return []
        by = (said.whole("by") or 0) - (said.whole("down") or 0)
        fret = _octave(telling, said, here, string) if said.whole("rise") == OCTAVE else here[1] + by
        return [(string, fret)] if 0 <= fret <= HIGHEST else []
    strings = named[0] if named else range(1, telling.names.count + 1)
    found = [(string, _octave(telling, said, here, string)) for string in strings]
    fits = [(string, fret) for string, fret in found if 0 <= fret <= HIGHEST]
    return sorted(fits, key=lambda place: (abs(abs(here[0] - place[0]) - SHAPE), abs(here[1] - place[1])))


def _octave(telling: Telling, said: Instruction, here: Place, string: int) -> int:
    """The fret that gives the octave of the note on the string; below 0 where it has none."""
    opens = telling.names.opens
    rise = -OCTAVE if said.text("side") == "down" or said.all("back") else OCTAVE
    return opens[here[0] - 1] + here[1] + rise - opens[string - 1]


def _other_fret(said: Instruction, last: Step, places: list[Place]) -> int | None:
    """The fret that the recipe tells, where the octave lies at another."""
    by = (said.whole("by") or 0) - (said.whole("down") or 0)
    told = int(last.frets[0]) + by
    return told if by and told != places[0][1] else None


def _is_rule(telling: Telling, said: Instruction) -> bool:
    """Whether the words tell how octaves lie, not which note is next: "an octave is always ..."."""
    before = telling.said_between(said.start - 1, said.start) & set(telling.words.stating)
    around = telling.said_between(said.start, said.end + RULE_WITHIN)
    return bool(before) or bool(around & {*telling.words.lasting, *telling.words.each})


def _is_told(telling: Telling, said: Instruction, last: Step, places: list[Place]) -> bool:
    """Whether a note that is told next is the one that the recipe leads to."""
    coming = next((one for one in telling.following if one.all("fret") or one.all("from")), None)
    if coming is None or coming.start - said.end > SPELLED:
        return False
    if telling.said_between(said.end, coming.start + 1) & set(telling.words.moving_on):
        return False
    frets = [int(fret) for fret in frets_of(coming, "fret") if fret != "x"]
    strings = telling.strings_of(coming)
    if not frets:
        return False
    if not strings:
        return coming.start - said.end <= AT_ONCE and any(fret == frets[0] for _, fret in places)
    here = (last.voices[0].named[0], int(last.frets[0]))
    there = [(string, frets[0]) for string in strings[0] if string != here[0]]
    return any(one in places or telling.names.bear_one_name(here, one) for one in there)
