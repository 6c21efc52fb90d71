"""Bends, pre-bends and releases: they often speak of a note already named."""

from __future__ import annotations

from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import How
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step, Voice
from notesgen.speech.instructions import Instruction

AT_HAND = 16  # items within which "bend it" speaks of the note before
USUAL_BEND = 2.0  # semitones taken where no amount is said


def bend(telling: Telling, said: Instruction) -> None:
    """Bends a named fret, one voice of what was just struck, or the last note."""
    how = cast(How, said.kind)
    amount = _amount(said)
    frets = frets_of(said, "fret")
    if not frets:
        _bend_last(telling, said, amount)
        return
    if len(frets) == 1 and _bends_voice(telling, said, int(frets[0]), amount):
        return
    strings = telling.strings_of(said)
    named = strings[0] if strings else ()
    for fret in frets[:-1]:
        telling.add(said, [Voice(fret, named)])
    telling.add(
        said,
        [Voice(frets[-1], named)],
        how=how,
        bend=amount or USUAL_BEND,
        amount_unsaid=amount is None,
    )


def release(telling: Telling, said: Instruction) -> None:
    """Lets the last bend down; says nothing when nothing is bent."""
    for step in reversed(telling.steps[-LOOK_BACK:]):
        if step.how == "release":
            return
        if step.is_bent:
            voices = [v for v in step.voices if v.how in ("bend", "pre-bend")] or list(step.voices)
            telling.add(said, [Voice(v.fret, v.named) for v in voices], how="release")
            return


def _amount(said: Instruction) -> float | None:
    """Semitones said, or counted from the fret whose pitch is the target on the same string."""
    amount = said.number("amount")
    if amount is not None:
        return amount
    target, start = said.whole("target"), frets_of(said, "fret")
    if target is not None and start and not said.text("other_string") and 0 < target - int(start[-1]) <= 4:
        return float(target - int(start[-1]))
    return None


def _bend_last(telling: Telling, said: Instruction, amount: float | None) -> None:
    """Bends the note just told, or puts right how far it is bent."""
    how = cast(How, said.kind)
    last = telling.last()
    if last is None or said.start - last.end > AT_HAND:
        return
    if telling.correcting is not None or last.is_bent:
        telling.correcting = None
        if amount is not None and last.is_bent and last.how in ("bend", "pre-bend"):
            corrected = (
                f"a bend of {last.bend:g}"
                if last.bend != amount and not last.amount_unsaid
                else last.corrected
            )
            telling.change_last(
                bend=amount, amount_unsaid=False, corrected=corrected, how=_later(last.how, how)
            )
        return
    if last.how in ("release", "trill", "harmonic", "tap") or last.frets[0] == "x":
        return
    telling.change_last(how=how, bend=amount or USUAL_BEND, amount_unsaid=amount is None)


def _later(old: How, new: How) -> How:
    return "pre-bend" if "pre-bend" in (old, new) else new


def _bends_voice(telling: Telling, said: Instruction, fret: int, amount: float | None) -> bool:
    """Whether "the 12 goes up a whole step" bends one voice of the pair just struck, or the last note."""
    last = telling.last()
    slot = slot_of(said, "fret")
    if last is None or fret not in last.frets or not telling.anaphoric(slot.start):
        return False
    if len(last.voices) == 1:
        if said.text("string"):
            return False
        telling.change_last(how="bend", bend=amount or USUAL_BEND, amount_unsaid=amount is None)
        return True
    telling.change_last(voices=_with_bend(last, fret, amount or USUAL_BEND))
    return True


def _with_bend(step: Step, fret: int, amount: float) -> tuple[Voice, ...]:
    return tuple(replace(v, how="bend", bend=amount) if v.fret == fret else v for v in step.voices)
