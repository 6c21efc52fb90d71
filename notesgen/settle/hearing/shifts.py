"""What was just played, some frets away: a shape that moves along the neck, or the note beside the last."""

from __future__ import annotations

from itertools import takewhile
from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, How
from notesgen.settle.hearing.bend_ahead import bends_by
from notesgen.settle.hearing.same import tell_again
from notesgen.settle.hearing.spelled import is_by_distance
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step, Voice
from notesgen.settle.told import read_count
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

BACK = "back"  # the slot "side" of a move back to where it came from
RETURN = "return"  # ... of one that goes so many frets back the way it came
BETWEEN = "between"  # ... of the fret between the last two
ALONE = "alone"  # the slot "label" of a distance that no word leads to: "one fret back"
NEAR = 1  # sentences back to the note from which a distance without a lead is counted
ENDS_WITHIN = 6  # items behind "slide it back" within which it is told where to
RETRACED = 12  # ... within which a note told by its distance may be left again: "and back down"


def shift(telling: Telling, said: Instruction) -> None:
    """What was just played, or the shape played before it where the words name one, some frets away."""
    slid = said.text("how") == "slide"
    last = _shape_spoken_of(telling, said) or (going(telling, said) if slid else telling.last())
    if last is None or "x" in last.frets:
        return
    by, _ = read_count(said.text("by"))
    if said.text("label") == ALONE and said.text("by") and bends_by(telling, said, by):
        return
    if said.text("label") == ALONE and said.text("side") != BACK and not _stands_alone(telling, said, last):
        return
    if said.text("by") and len(last.voices) == 1 and _of_passage(telling, said):
        tell_again(telling, said)
        return
    if said.text("side") == BACK:
        (retrace(telling, said) if said.text("label") == ALONE else _slide_back(telling, said, last))
        return
    voices = _between(telling, last) if said.text("side") == BETWEEN else _moved(telling, said, last)
    if voices:
        telling.add(said, voices, how=_how(said, last), bend=last.bend, origin="derived")


def going(telling: Telling, said: Instruction) -> Step | None:
    """What slides: the last note or chord, or all of a chord that was told note by note, where the words
    speak of the whole: "7 on the A, 6 on the D, and slide the whole thing down a fret".
    """
    last = telling.last()
    words = {*telling.words.whole, *telling.words.shapes}
    if last is None or len(last.voices) > 1 or not telling.said_between(said.start, said.end) & words:
        return last
    voices: list[Voice] = []
    for step in takewhile(lambda one: one.sentence == last.sentence, reversed(telling.steps)):
        named = step.voices[0].named or step.before
        alone = len(step.voices) == len(named) == 1 and step.how == "pick" and "x" not in step.frets
        if not alone or any(voice.named == named for voice in voices):
            return last
        voices.insert(0, replace(step.voices[0], named=named))
    return replace(last, voices=tuple(voices))


def movable(step: Step) -> list[Voice]:
    """The voices that go along when a shape moves: fretted ones, or open ones where nothing is fretted."""
    sounding = [voice for voice in step.voices if voice.fret != "x"]
    return [voice for voice in sounding if voice.fret != 0] or sounding


def _stands_alone(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether a distance without a lead is of the next note: a clause of its own, or led to."""
    items, words = telling.items, telling.words
    opens = items[said.start].text in {*words.moving_on, *words.turning_to, *words.joining}
    if len(last.voices) != 1:
        told = telling.said_between(said.start, said.end)
        return opens or bool(told & {*words.both, *words.whole, *words.shapes})
    if last.placed or not telling.near(said, NEAR):
        return False
    begins = said.start == 0 or items[said.start].before > Break.NONE
    ends = said.end == len(items) or items[said.end].before > Break.NONE
    goes_on = ends or items[said.end].text in {*words.joining, *words.together_with}
    return (begins or opens) and goes_on


def _moved(telling: Telling, said: Instruction, last: Step) -> list[Voice]:
    """The voices so many frets away, or with the first of them at a fret; () where one leaves the neck."""
    target = said.whole("fret")
    by = target - int(last.frets[0]) if target is not None else read_count(said.text("by"))[0]
    down = target is None and _goes_down(telling, said, last)
    moved = [replace(v, fret=int(v.fret) + (-by if down else by)) for v in movable(last)]
    return moved if all(int(voice.fret) >= 0 for voice in moved) else []


def _between(telling: Telling, last: Step) -> list[Voice]:
    """The one fret between the last two notes; () where they leave room for another, or for none."""
    before = telling.last(2)
    if before is None or len(before.voices) != 1 or len(last.voices) != 1 or "x" in before.frets:
        return []
    low, high = sorted((int(before.frets[0]), int(last.frets[0])))
    return [replace(last.voices[0], fret=low + 1)] if high - low == 2 else []


def _slide_back(telling: Telling, said: Instruction, last: Step) -> None:
    """What slid goes back to where it came from."""
    before = telling.last(2)
    pair = len(last.voices) > 1 and not _frets_come(telling, said)
    if before and len(before.voices) == len(last.voices) and (last.how == "slide" or pair):
        telling.add(said, before.voices, how="slide", origin="derived")
    elif len(last.voices) > 1:
        telling.sliding, telling.sliding_at = len(telling.steps), said.start


def _frets_come(telling: Telling, said: Instruction) -> bool:
    """Whether where it slides back to is told at once: "slide them back, five and three"."""
    coming = telling.coming
    if coming is None or coming.start - said.end > ENDS_WITHIN:
        return False
    told = bool(coming.all("fret") or coming.all("to"))
    return told and not telling.said_between(said.end, coming.start + 1) & {*telling.words.moving_on}


def retrace(telling: Telling, said: Instruction) -> bool:
    """Whether "and back down again" leads to the note from which the last one was told by its distance."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or not is_by_distance(last) or said.start - last.end > RETRACED:
        return False
    if len(before.voices) == len(last.voices) == 1 and before.frets != last.frets:
        voice = replace(last.voices[0], fret=before.voices[0].fret)
        telling.add(said, [voice], how="slide" if last.how == "slide" else "pick", origin="derived")
    return True


def _how(said: Instruction, last: Step) -> How:
    """How the moved notes begin: as was said; else as those from which they move, but picked anew."""
    how = cast(How, said.text("how") or "pick")
    if how != "pick":
        return how
    return "pick" if last.how in LEGATO and len(last.voices) == 1 else last.how


def _of_passage(telling: Telling, said: Instruction) -> bool:
    """Whether more than the last note moves: "the same thing down two frets", of a lick."""
    words, spoken = telling.words, telling.said_between(said.start, said.end)
    if said.text("how") == "slide":
        return telling.trailing() > 1 and bool(spoken & {*words.whole} - {*words.both, *words.pointing})
    return bool(spoken & {*words.sameness, *words.whole})


def _goes_down(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether it moves down: as was said, or the way it came, where it goes "one fret back"."""
    side, how = said.text("side"), said.text("how")
    if side not in (RETURN, "", None):
        return side == "down"
    if how in ("hammer-on", "pull-off"):
        return how == "pull-off"
    back = side == RETURN or _says_back(telling, said)
    recent = [step for step in telling.steps[-LOOK_BACK:] if step.section == last.section]
    others = (step for step in reversed(recent) if step.frets != last.frets)
    before = next((step for step in others if len(step.voices) == len(last.voices)), None)
    if before is None or "x" in before.frets:
        return back
    fell = int(before.frets[0]) > int(last.frets[0])
    if side is None:  # "the next fret": on the way that it was going
        return fell and _on_one_string(before, last)
    if len(last.voices) == 1 and back and (not is_by_distance(last) or _says_back(telling, last)):
        return True  # back is towards the nut, unless a move is taken back
    return not fell


def _says_back(telling: Telling, said: Instruction | Step) -> bool:
    return bool(telling.said_between(said.start, said.end) & set(telling.words.going_back))


def _on_one_string(one: Step, other: Step) -> bool:
    here, there = one.voices[0].named, other.voices[0].named
    return not here or not there or bool(set(here) & set(there))


def _shape_spoken_of(telling: Telling, said: Instruction) -> Step | None:
    """The chord or pair last played, where the words speak of it: "move the power chord up to 5"."""
    if not telling.said_between(said.start, said.end) & set(telling.words.shapes):
        return None
    recent = reversed(telling.steps[-LOOK_BACK:])
    return next((step for step in recent if len(step.voices) > 1), None)
