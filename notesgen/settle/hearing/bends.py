"""Bends, pre-bends and releases: they often speak of a note already named."""

from __future__ import annotations

from collections.abc import Iterable
from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import BENDS, How
from notesgen.settle.hearing.arrival import rise_to
from notesgen.settle.hearing.bend_ahead import (
    AT_ONCE,
    announced_amount,
    announces_pre_bend,
    bend_as_announced,
    is_announced,
)
from notesgen.settle.hearing.meeting import UNISON, meet
from notesgen.settle.hearing.scopes import scope
from notesgen.settle.hearing.shifts import retrace
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.hearing.turned_back import turn_back
from notesgen.settle.step import Step, Voice
from notesgen.speech.instructions import Instruction

AT_HAND = 16  # items within which "bend it" speaks of the note before
WIDEST_BEND = 4  # frets up to which another fret can be the target of a bend
ON_STRING = 2  # sentences behind a note within which its string is bent by name
AMOUNT_ALONE = "amount"  # the slot "side" of words that only say how far
AND_BACK = "release"  # ... of a bend that is let down again
AHEAD = "ahead"  # ... that announce a pre-bend, whose note and amount follow
BRIEF = "brief"  # the slot "side" of words that say too little by themselves
USUAL_BEND = 2.0  # semitones taken where no amount is said


def bend(telling: Telling, said: Instruction) -> None:
    """Bends a named fret, one voice of what was just struck, or the last note; or announces a bend."""
    if said.text("side") == AHEAD and announces_pre_bend(telling, said):
        return
    if said.text("side") == UNISON and meet(telling, said):
        return
    _bend(telling, said)
    bend_as_announced(telling)


def _bend(telling: Telling, said: Instruction) -> None:
    how = cast(How, said.kind)
    amount = _amount(telling, said)
    frets = frets_of(said, "fret")
    if not frets and said.all("string"):
        _bend_on(telling, said, amount)
        return
    if not frets:
        _bend_last(telling, said, amount)
        return
    if len(frets) == 1 and _bends_voice(telling, said, int(frets[0]), amount):
        return
    strings = telling.strings_of(said)
    named = strings[0] if strings else ()
    if frets == [0] and amount is None:  # nothing bends an open string: "G open, and it goes up to the B"
        telling.add(said, [Voice(0, named)])
        return
    other = telling.strings_of(said, "other_string")
    if other and named and _is_unison(telling.last()):
        meets = Voice(cast(int, said.whole("target")), other[0])
        telling.add(said, [Voice(frets[-1], named, how=how, bend=amount or USUAL_BEND), meets])
        return
    for fret in frets[:-1]:
        telling.add(said, [Voice(fret, named)])
    telling.add(
        said,
        [Voice(frets[-1], named)],
        how=how,
        bend=amount or USUAL_BEND,
        amount_unsaid=amount is None,
    )
    if said.text("side") == AND_BACK:
        release(telling, said)


def _is_unison(last: Step | None) -> bool:
    """Whether the last step is a pair of which one note is bent: what is bent to meet a note is another."""
    return last is not None and len(last.voices) == 2 and sum(v.how in BENDS for v in last.voices) == 1


def release(telling: Telling, said: Instruction) -> None:
    """Lets the last bend down, or that on the string named. With nothing bent, letting a hammered note go
    is a pull-off.

    A bare "and down" speaks of a bend only right behind it.
    """
    if said.all("string"):
        _release_on(telling, said)
        return
    brief = said.text("side") == BRIEF
    if brief and telling.said_between(said.end, said.end + 1) & {*telling.words.reaching}:
        return  # "and back to the open"
    if brief and not _just_bent(telling, said):
        if not retrace(telling, said):
            turn_back(telling, said)
        return
    last = telling.last()
    if last is not None and not last.is_bent and telling.amount_for(last) is not None:
        telling.change_last(how="bend", bend=telling.amount_for(last))
    elif last is not None and last.how == "pick" and is_announced(telling, last):
        amount = announced_amount(telling, last)
        telling.change_last(how="bend", bend=amount or USUAL_BEND, amount_unsaid=amount is None)
    bend_as_announced(telling)
    for step in reversed(telling.steps[-LOOK_BACK:]):
        if step.how == "release":
            return
        if step.is_bent:
            _let_down(telling, said, step)
            return
    before = telling.last(2)
    if last and before and last.how == "hammer-on" and telling.near(said, 1):
        telling.add(said, [Voice(before.frets[0])], how="pull-off")


def _let_down(telling: Telling, said: Instruction, step: Step) -> None:
    voices = _bent(step)
    let_down = voices[0].bend if voices[0].how else step.bend
    telling.add(said, [Voice(v.fret, v.named) for v in voices], how="release", bend=let_down)


def _bent(step: Step) -> list[Voice]:
    """The voices of a bent step that are bent."""
    return [v for v in step.voices if v.how in BENDS] or list(step.voices)


def _release_on(telling: Telling, said: Instruction) -> None:
    """Lets down what is bent on the string named, whatever was struck since, or names the string."""
    for step in reversed(telling.steps[-LOOK_BACK:]):
        if _on_string(telling, said, step.voices) and step.how == "release":
            return
        if step.is_bent and _on_string(telling, said, _bent(step)):
            _let_down(telling, said, step)
            return
    scope(telling, said)


def _bend_on(telling: Telling, said: Instruction, amount: float | None) -> None:
    """Bends what was just struck on the string named: "and you bend only the B string, a whole step"."""
    last = telling.last()
    voices = _on_string(telling, said, last.voices) if last else ()
    if last is None or len(voices) != 1 or voices[0].fret == "x" or not telling.near(said, ON_STRING):
        scope(telling, said)
    elif len(last.voices) == 1:
        _bend_last(telling, said, amount)
    elif not last.is_bent:
        telling.change_last(voices=_with_bend(last, voices[0], amount or USUAL_BEND))


def _on_string(telling: Telling, said: Instruction, voices: Iterable[Voice]) -> tuple[Voice, ...]:
    """The voices that may lie on the string named."""
    named = {string for one in telling.strings_of(said) for string in one}
    return tuple(voice for voice in voices if named & {*voice.named})


def _just_bent(telling: Telling, said: Instruction) -> bool:
    last = telling.last()
    return last is not None and last.is_bent and telling.near(said, 1)


def _amount(telling: Telling, said: Instruction) -> float | None:
    """Semitones said, or counted to the fret whose pitch is the target on the same string."""
    amount = said.number("amount")
    if amount is None and (letter := said.text("letter")) and said.all("fret"):
        return rise_to(telling, telling.strings_of(said), frets_of(said, "fret")[-1], letter)
    target, last = said.whole("target"), telling.last()
    if amount is not None or target is None:
        return amount
    if said.text("other_string"):
        return _rise_across(telling, said, target)
    frets = frets_of(said, "fret") or (list(last.frets) if last else [])
    if not frets or frets[-1] == "x" or not 0 < target - int(frets[-1]) <= WIDEST_BEND:
        return None
    return float(target - int(frets[-1]))


def _rise_across(telling: Telling, said: Instruction, target: int) -> float | None:
    """Semitones from the fret to the target on another string, where both strings are named."""
    one, other = telling.strings_of(said), telling.strings_of(said, "other_string")
    frets = frets_of(said, "fret")
    if not frets or frets[-1] == "x" or [len(s) for s in (*one, *other)] != [1, 1]:
        return None
    rise = telling.names.rise(one[0][0], int(frets[-1]), other[0][0], target)
    return float(rise) if 0 < rise <= WIDEST_BEND else None


def _bend_last(telling: Telling, said: Instruction, amount: float | None) -> None:
    """Bends the note just told, again after a release, or puts right how far it is bent."""
    how = cast(How, said.kind)
    last = telling.last()
    if last is None or said.start - last.end > AT_HAND:
        telling.amount_ahead = (said.end, amount) if amount is not None else telling.amount_ahead
        return
    if telling.correcting is not None or last.is_bent:
        telling.correcting = None
        if amount is not None and last.how in BENDS:
            _set_amount(telling, last, how, amount)
        elif how == "pre-bend" and last.how == "bend" and said.start - last.end <= AT_ONCE:
            telling.change_last(how=how)
        return
    if last.frets[0] == "x":
        return
    if said.text("side") == AMOUNT_ALONE:
        _amount_alone(telling, said, amount)
        return
    amount = amount or telling.amount_for(last)
    if last.how == "release":
        bent = amount or last.bend
        telling.add(said, last.voices, how=how, bend=bent or USUAL_BEND, amount_unsaid=bent is None)
    elif last.how not in ("trill", "harmonic", "tap"):
        telling.change_last(how=how, bend=amount or USUAL_BEND, amount_unsaid=amount is None)


def _amount_alone(telling: Telling, said: Instruction, amount: float | None) -> None:
    """Only how far: of a bend already let down where it was left open, else of one that may still come."""
    last, before = telling.last(), telling.last(2)
    if amount is not None:
        telling.amount_ahead = said.end, amount
        if last and last.how == "pick" and said.start - last.end <= AT_ONCE and is_announced(telling, last):
            telling.change_last(how="bend", bend=amount)
    if last and before and last.how == "release" and before.amount_unsaid and amount is not None:
        bent = replace(before, bend=amount, amount_unsaid=False)
        telling.steps[-2:] = [bent, replace(last, bend=amount)]


def _set_amount(telling: Telling, last: Step, how: How, amount: float) -> None:
    """The amount of a bend, said after it; a different one said before is a slip put right."""
    slip = last.bend != amount and not last.amount_unsaid
    corrected = f"a bend of {last.bend:g}" if slip else last.corrected
    telling.change_last(bend=amount, amount_unsaid=False, corrected=corrected, how=_later(last.how, how))


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
    voice = next(v for v in last.voices if v.fret == fret)
    telling.change_last(voices=_with_bend(last, voice, amount or USUAL_BEND))
    return True


def _with_bend(step: Step, voice: Voice, amount: float) -> tuple[Voice, ...]:
    return tuple(replace(v, how="bend", bend=amount) if v is voice else v for v in step.voices)
