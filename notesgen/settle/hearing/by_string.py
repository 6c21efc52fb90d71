"""Chords and pairs told string by string: a fret that joins those told just before."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing import abreast, duet, rooted
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings, Voice
from notesgen.speech.instructions import Instruction

CHORD_NEAR = 12  # items within which an announced power chord begins to be spelled out
POWER_SAID = 60  # items within which chords are told that were called power chords
PAIR = 2  # voices of a stroke on two strings


def ends_list(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Joins the last of three that are struck as one: "pinch 2 on the D, 2 on the G, and 3 on the B"."""
    before, last, joining = telling.preceding, telling.last(), {*telling.words.joining}
    if before is None or last is None or before.kind != "pair" or len(strings) != 1:
        return False
    if len(last.voices) != PAIR:
        return False
    goes_on = said.start == before.end == last.end and telling.items[said.start].text in joining
    listed = goes_on and not telling.said_between(before.start, before.end) & joining
    taken = {string for voice in last.voices for string in voice.named}
    if not listed or not telling.near(said, 0) or taken & {*strings[0]}:
        return False
    telling.change_last(voices=(*last.voices, Voice(fret, strings[0])), end=said.end)
    return True


def spells_chord(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Adds a string to a power chord that was announced and is being spelled out."""
    last = telling.steps[-1]
    near = telling.chord_at <= last.start < telling.chord_at + CHORD_NEAR
    named = {string for voice in last.voices for string in voice.named}
    fits = len(strings) == 1 and named and not set(strings[0]) & named
    if not near or not fits or len(last.voices) >= telling.chord_voices:
        return False
    telling.change_last(voices=(*last.voices, Voice(fret, strings[0])), end=said.end)
    return True


def begins_row(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Joins the first two notes told behind "they come in together": from there on the two are as one."""
    last = telling.last()
    if last is None or telling.together_at < 0 or telling.chord_voices != PAIR or len(strings) != 1:
        return False
    first = last.voices[0].named or telling.has_own_string(last) * last.before
    between = telling.said_between(last.end, slot_of(said, "fret").start) & {*telling.words.moving_on}
    near = telling.together_at < last.start < telling.chord_at + CHORD_NEAR and len(last.voices) == 1
    if not near or between or not first or set(first) & set(strings[0]):
        return False
    if not duet.is_open(telling, said, last):
        return False
    telling.change_last(voices=(replace(last.voices[0], named=first), Voice(fret, strings[0])), end=said.end)
    if not telling.said_between(telling.together_at, telling.chord_at) & set(telling.words.pinching):
        abreast.announce(telling, (first, strings[0]), last.start)
    return True


def is_fifth(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Joins root and fifth told one by one, where power chords are spoken of: "5 on the A and 7 on the D"."""
    last = telling.last()
    if last is None or len(last.voices) > 1 or len(strings) != 1 or "x" in (fret, last.frets[0]):
        return False
    root = last.voices[0].named or (last.before if telling.has_own_string(last) else ())
    start = telling.sections[-1].end
    spoken = telling.said_between(max(start, last.start - POWER_SAID), last.start) & {*telling.words.powered}
    if not spoken or len(root) != 1 or strings[0] != (root[0] - 1,) or not duet.is_open(telling, said, last):
        return False
    if (1, int(fret) - int(last.frets[0])) not in rooted.FIFTH:
        return False
    telling.change_last(voices=(replace(last.voices[0], named=root), Voice(fret, strings[0])), end=said.end)
    telling.fifth = rooted.FIFTH
    return True
