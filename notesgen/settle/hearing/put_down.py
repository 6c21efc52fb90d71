"""Frets that only tell where the fingers stand before anything is struck.

"Index on 5, ring on 7, pinky on 8. Start on the G string with the 5": the fret is told again with its string
when it is played; or the finger only says where the position is that was just named.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.speech.instructions import Instruction

BESIDE = 1  # items between a finger and its fret: "on"
WITHIN = 10  # items within which the note that is played is told
A_ROW = 3  # fingers that are only put down where each has its fret and none a string
POSITION = 6  # items between a position and the finger that tells where it is


def only_placed(telling: Telling, said: Instruction, frets: list[Fret]) -> bool:
    """Whether the fret behind a finger's name only tells where the hand is."""
    if len(frets) != 1 or said.all("string") or telling.correcting is not None or frets[0] == 0:
        return False
    if not 0 <= said.start - telling.finger_at <= BESIDE or telling.finger_at == telling.thumb_at:
        return False
    if _string_in_force(telling, said):
        return False
    if said.start < telling.fingers_until:
        return True
    return _is_of_position(telling, said, frets[0]) or _is_told_below(telling, said, frets[0])


def _string_in_force(telling: Telling, said: Instruction) -> bool:
    """Whether a string was named for the note: since the last one, or in the same sentence."""
    return telling.is_led(said) or telling.named_since() is not None


def _is_of_position(telling: Telling, said: Instruction, fret: Fret) -> bool:
    """ "Tenth position, so first finger on ten. B string, 12"."""
    told, coming = telling.position_told, telling.following[:1]
    named = bool(coming) and coming[0].kind == "note" and bool(coming[0].all("string"))
    return named and told is not None and told.whole("fret") == fret and said.start - told.end <= POSITION


def _is_told_below(telling: Telling, said: Instruction, fret: Fret) -> bool:
    """Whether the fret is told with its string once the fingers are down, or a whole row of fingers is."""
    row = 1
    reached = said.end
    for one in _fretted(telling):
        if one.start - reached > WITHIN:
            return False
        if one.all("string") and row >= A_ROW and _opens(telling, one):
            telling.fingers_until = reached
            return True
        if one.all("string"):
            return fret in frets_of(one, "fret")
        row, reached = row + 1, one.end
    return False


def _fretted(telling: Telling) -> Iterator[Instruction]:
    """The frets to come, each behind its finger, and the first one that is told otherwise."""
    finger = False
    for one in telling.following:
        if one.kind == "aside" and one.all("finger"):
            finger = True
        elif one.kind != "note" or not one.all("fret"):
            if one.kind != "aside":
                return
        else:
            yield one
            if not finger or one.all("string"):
                return
            finger = False


def _opens(telling: Telling, one: Instruction) -> bool:
    """Whether the note stands in a sentence of its own, behind those of the fingers."""
    return telling.sentences.of(one.start) > telling.sentences.of(telling.finger_at)
