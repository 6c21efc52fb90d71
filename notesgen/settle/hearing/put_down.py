"""Frets that only tell where the fingers stand: nothing is struck there.

"First finger on 5, pinky's got 8": with no string, and no word of striking or of going on, the fret is the
finger's place. So it is where whole rows of fingers are told with their frets, and where a fret is given to
a finger: "the fifth fret is always your first finger". With a string in force the same words play.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from msgspec import Struct

from notesgen.lesson.model import LEGATO, Fret
from notesgen.settle.hearing.hand import FINGERS
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.speech.instructions import Instruction

BESIDE = 2  # items between a finger and its fret: "has got the", "is always your"
APART = 3  # items between one finger of a row and the next
A_ROW = 3  # fingers with a fret each that only tell where the hand is
LEANING = 2  # frets by which the hand may stretch over such a row
AT_ONCE = 3  # items behind a fret within which it is said to be struck, or its string is named


class _Finger(Struct, frozen=True):
    """A finger and the fret told for it; `end` is the item behind both."""

    finger: int
    fret: int
    end: int


def only_placed(telling: Telling, said: Instruction, frets: list[Fret]) -> bool:
    """Whether the fret beside a finger's name only tells where the hand is."""
    if len(frets) != 1 or said.all("string") or telling.correcting is not None or frets[0] in (0, "x"):
        return False
    if said.start < telling.fingers_until:
        return True
    if _on_string(telling, said):
        return False
    row = list(_row(telling, said))
    if _is_of_hand(row):
        telling.fingers_until = row[-1].end
    elif row and (_stays(telling, said) or _is_given(telling, said)):
        row = row[:1]
    else:
        return False
    for one in row:
        telling.fretting = telling.fretting.put(one.finger, one.fret)
    return True


def _on_string(telling: Telling, said: Instruction) -> bool:
    """Whether a string holds for the fret: one in force, one behind it, or that of a finger that played."""
    last = telling.last()
    goes_on = telling.near(said, 0) or (last is not None and last.fingered and telling.near(said, 1))
    if telling.named_since() is not None or (goes_on and last and (last.voices[0].named or last.before)):
        return True
    coming = telling.coming
    return coming is not None and coming.kind == "scope" and coming.start - said.end <= AT_ONCE


def _row(telling: Telling, said: Instruction) -> Iterator[_Finger]:
    """The fingers told from here on with a fret each, all of them before it or all behind it."""
    before = telling.preceding
    leads = before is not None and _finger(before) and 0 <= said.start - before.end < BESIDE
    words = [before, said, *telling.following] if before and leads else [said, *telling.following]
    for at in range(0, len(words) - 1, 2):
        first, second = words[at], words[at + 1]
        named, fretted = (first, second) if leads else (second, first)
        finger, fret = _finger(named), _fret(fretted)
        if not finger or fret is None or second.start - first.end > BESIDE:
            return
        if at and first.start - words[at - 1].end > APART:
            return
        yield _Finger(finger, fret, second.end)


def _finger(said: Instruction) -> int:
    """The one fretting finger that the words name, 0 if none: "second on 8" leaves its noun out."""
    if said.kind == "note" and said.text("side") == "ordinal" and said.whole("fret") in FINGERS.values():
        return said.whole("fret") or 0
    names = said.all("finger") if said.kind == "aside" else ()
    return FINGERS.get(str(names[0]), 0) if len(names) == 1 else 0


def _fret(said: Instruction) -> int | None:
    frets = frets_of(said, "fret") if said.kind == "note" and not said.all("string") else []
    return int(frets[0]) if len(frets) == 1 and frets[0] not in (0, "x") else None


def _is_of_hand(row: list[_Finger]) -> bool:
    """Whether a row tells where the hand is: three fingers or more, or the first ones at the nut."""
    if len(row) < 2 or any((b.fret - a.fret) * (b.finger - a.finger) <= 0 for a, b in pairwise(row)):
        return False
    bases = [one.fret - one.finger for one in row]
    return max(bases) - min(bases) <= LEANING and (len(row) >= A_ROW or set(bases) == {0})


def _stays(telling: Telling, said: Instruction) -> bool:
    """ "First finger on 5", "the pinky's got 8": the finger is there; no word strikes it or goes on to it."""
    before, words = telling.preceding, telling.words
    if before is None or not _finger(before) or telling.finger_at == telling.thumb_at:
        return False
    link = telling.said_between(before.end - 1, slot_of(said, "fret").start + 1)
    if not link & set(words.placing) or telling.said_between(before.start - 2, said.end) & _going(telling):
        return False
    return not _is_struck(telling, said)


def _going(telling: Telling) -> frozenset[str]:
    words = telling.words
    return frozenset({*words.moving_on, *words.striking, *words.again})


def _is_struck(telling: Telling, said: Instruction) -> bool:
    """Whether the next words strike the fret, bend it, or go on from it."""
    if telling.said_between(said.end, said.end + AT_ONCE) & {*telling.words.striking, *telling.words.again}:
        return True
    coming = telling.coming
    if coming is None or coming.start - said.end > AT_ONCE:
        return False
    return coming.kind in {*LEGATO, "bend", "count", "again"} and not coming.all("from")


def _is_given(telling: Telling, said: Instruction) -> bool:
    """ "Fifth fret is always your first finger": the fret is told to be a finger's."""
    after = telling.following[:1]
    link = telling.said_between(said.end, after[0].start) if after else frozenset()
    return bool(link & set(telling.words.stating)) and after[0].start - said.end <= BESIDE
