"""Notes whose name and place do not agree: the name counts, for numbers are misspoken more often than names.

A neighbouring string that gives the note at the same fret is taken first, then a fret close by. Where there
is neither, the place stands as said. (Common practice, no source.)
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.lesson.model import BENDS, LEGATO
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import pitch_class
from notesgen.settle.assign import Assigned

CLOSE = 2  # frets by which a number may be misspoken where the name tells the note


def by_name(assigned: Sequence[Assigned], neck: Fretboard) -> tuple[Assigned, ...]:
    """The notes with those moved that their names put elsewhere; `Assigned.slip` tells where they were.

    Slurred notes that follow on the string of a moved note go along with it.
    """
    moved: list[Assigned] = []
    for one in assigned:
        before = moved[-1] if moved else None
        if before and before.slip and _hangs_on(before, one):
            moved.append(replace(one, strings=before.strings, slip=(one.strings[0], one.step.frets[0])))
        elif disagrees(one, before, neck):
            moved.append(_moved(one, before, neck))
        else:
            moved.append(one)
    return tuple(moved)


def disagrees(one: Assigned, before: Assigned | None, neck: Fretboard) -> bool:
    """Whether the name, told in the same breath, is that of another note.

    It may be that of the note before: "hammer from 1 to 2, and that's the blue note".
    """
    step = one.step
    if not step.letter or not step.letter_at_once or step.how in BENDS or len(one.strings) > 1:
        return False
    slurred = before is not None and len(before.strings) == 1 and step.how in LEGATO
    if before and slurred and gives(step.letter, before.strings[0], before.step.frets[0], neck):
        return False
    return not gives(step.letter, one.strings[0], step.frets[0], neck)


def gives(letter: str, string: int, fret: object, neck: Fretboard) -> bool:
    """Whether the place sounds a note of that name; a dead note, or one off the neck, has no name."""
    if not isinstance(fret, int) or not neck.has(string, fret):
        return fret == "x" or not neck.has(string, 0)
    return (neck.pitch(string, fret) - neck.capo) % 12 == pitch_class(letter)


def _moved(one: Assigned, before: Assigned | None, neck: Fretboard) -> Assigned:
    string, fret = one.strings[0], one.step.frets[0]
    if not isinstance(fret, int):
        return one
    slip = (string, fret)
    held = one.step.how in LEGATO and before is not None
    for other in (string - 1, string + 1):
        on_neck = 1 <= other <= neck.strings and neck.has(other, fret)
        stays = not held or before is None or other in before.strings
        if on_neck and stays and gives(one.step.letter, other, fret, neck):
            return replace(one, strings=(other,), slip=slip)
    for by in (-1, 1, -CLOSE, CLOSE):
        if neck.has(string, fret + by) and gives(one.step.letter, string, fret + by, neck):
            voice = replace(one.step.voices[0], fret=fret + by)
            return replace(one, step=replace(one.step, voices=(voice,)), slip=slip)
    return one


def _hangs_on(before: Assigned, one: Assigned) -> bool:
    """Whether the note is slurred from a string that was named wrongly, and named no string itself."""
    was = before.slip[0] if before.slip else 0
    slurred = one.step.how in LEGATO and len(one.strings) == 1 and not one.step.voices[0].named
    return slurred and was != before.strings[0] and one.strings[0] == was
