"""Letters that tell at which pitch a bend arrives: "bent a whole step, up to the D" names no string."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import BENDS, Fret
from notesgen.settle.hearing.grips import fret_follows
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings
from notesgen.speech.instructions import Instruction

WITHIN = 3  # items between a bend and the words that tell where it arrives
WIDEST = 4.0  # semitones that a bend goes up at most
AMOUNTS = (*BENDS, "shift")  # instructions that tell how far a string is bent


def arrives(telling: Telling, said: Instruction, letter: str) -> bool:
    """Whether the letter is the pitch of the bend just told; an amount that was left open follows from it."""
    last, before = telling.last(), telling.preceding
    if last is None or before is None or before.kind not in AMOUNTS or not letter:
        return False
    if not 0 <= said.start - before.end <= WITHIN or len(last.voices) != 1 or last.frets[0] == "x":
        return False
    led = telling.said_between(before.end, said.end)
    if not led & {*telling.words.arriving} or led & {*telling.words.moving_on}:
        return False
    amount = last.bend if last.is_bent else telling.amount_for(last)
    if amount is None:
        return False
    rise = rise_to(telling, [last.voices[0].named or last.before], last.frets[0], letter)
    if last.amount_unsaid and rise is not None:
        telling.change_last(bend=rise, amount_unsaid=False)
        return True
    return rise == amount or not fret_follows(telling, said)


def rise_to(telling: Telling, strings: Sequence[Strings], fret: Fret, letter: str) -> float | None:
    """Semitones from the note up to the letter; None where its string is open, or no bend goes so far."""
    if [len(one) for one in strings] != [1] or fret == "x" or not telling.names.is_letter(letter):
        return None
    rise = float((telling.names.lowest_fret(letter, strings[0][0]) - int(fret)) % 12)
    return rise if 0 < rise <= WIDEST else None
