"""Root and fifth told in one breath are a power chord: "5 on the A and 7 on the D and the G"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.joined import fits, join, known
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Voice
from notesgen.speech.instructions import Instruction

A_PAIR = 2  # voices of a shape whose frets may as well be two roots
SPELLED_WITHIN = 3  # items behind a power chord within which its strings are told one by one
NEXT_TO = 1  # items between the root and the rest of its chord
FIFTH_AND_OCTAVE = ((1, 2), (2, 2))  # strings and frets from the root; low strings a fourth apart
UPPER = ((1, 2), (2, 3))  # ... where the octave lies on the B string


def complete(telling: Telling) -> None:
    """Joins the root told right before fifth and octave, where nothing says that it comes first."""
    root, rest = telling.last(2), telling.last()
    if root is None or rest is None or len(root.voices) != 1 or len(rest.voices) != 2:
        return
    if root.sentence != rest.sentence or not fits(root, rest) or "x" in (*root.frets, *rest.frets):
        return
    if rest.start - root.end > NEXT_TO:
        return
    if telling.said_between(root.end, rest.end) & {*telling.words.moving_on}:
        return
    base = known(root)[0]
    if len(base.named) != 1:
        return
    rises = tuple((base.named[0] - v.named[0], int(v.fret) - int(base.fret)) for v in rest.voices)
    if tuple(sorted(rises)) in (FIFTH_AND_OCTAVE, UPPER):
        join(telling)


def row_of(telling: Telling, said: Instruction, frets: Sequence[Fret], size: int) -> list[tuple[Fret, int]]:
    """The bare frets told in one go from here on, as many as a shape has strings, each with its end."""
    row = [(fret, said.end) for fret in frets]
    for one in telling.following:
        told = frets_of(one, "fret")
        bare = one.kind == "note" and len(told) == 1 and not one.all("string")
        if len(row) >= size or not bare or one.start - row[-1][1] > NEXT_TO:
            break
        row.append((told[0], one.end))
    return row


def is_spelled_next(telling: Telling, said: Instruction, frets: Sequence[Fret]) -> bool:
    """Whether its strings are told one by one behind: "a power chord at 3, so 3 on the E and 5 on the A"."""
    told = list(islice((one for one in telling.following if one.all("fret")), A_PAIR))
    if len(told) < A_PAIR or any(len(one.all("fret")) > 1 for one in told):
        return False
    close = told[0].start - said.end <= SPELLED_WITHIN and told[1].start - told[0].end <= NEXT_TO
    root, fifth = (telling.strings_of(one) for one in told)
    beside = len(root) == len(fifth) == 1 and {one - 1 for one in root[0]} & {*fifth[0]}
    return close and frets_of(told[0], "fret") == [*frets] and bool(beside)


def spells(shape: Sequence[Voice], frets: Sequence[Fret]) -> bool:
    """Whether the frets are those of the shape itself, string by string: "so five, seven, seven"."""
    if len(frets) != len(shape) or len(frets) <= A_PAIR or "x" in frets:
        return False
    return all(int(fret) - int(frets[0]) == int(v.fret) for fret, v in zip(frets, shape, strict=True))
