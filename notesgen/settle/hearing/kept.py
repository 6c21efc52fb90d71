"""One voice of a pair or chord changes while the others stay: the stroke is told by what is new in it."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction

MEMORY = 8  # notes back to which one that is kept going may have been told
SWAPS = "swaps"  # the slot "side" of the one note that is new: "the same with 10 on the G"
SWAPS_TOP = "swaps the top"  # ... where it is the highest: "change the top note to 10"
HOLDS = 1  # sentences for which "keep those" holds, behind it and behind each stroke that it changed


def keep(telling: Telling, said: Instruction) -> None:
    """Voices that stay: the lone note told just before takes them in, or the notes that come."""
    stays = frozenset(one for names in telling.strings_of(said) for one in names)
    frets = frets_of(said, "held")
    sentence = telling.sentences.of(said.start)
    if _is_new(telling, said, stays, frets):
        telling.add(said, [Voice(frets[0], tuple(stays))])
        telling.note_until = said.end
        return
    last, before = telling.last(), telling.last(2)
    if last is not None and before is not None and last.sentence == sentence:
        whole = _changed(before, last, stays, frets)
        if whole is not None:
            telling.change_last(voices=whole, end=said.end)
    telling.keeping, telling.kept_until = True, sentence + HOLDS


def _is_new(telling: Telling, said: Instruction, stays: frozenset[int], frets: list[Fret]) -> bool:
    """Whether "I keep the fifth fret of the A going" tells a note: it was not told before, and sounds."""
    if len(frets) != 1 or len(stays) != 1:
        return False
    if not telling.said_between(said.start, said.end) & {*telling.words.keeping_on}:
        return False
    recent = (voice for step in telling.steps[-MEMORY:] for voice in step.voices)
    return not any(voice.fret == frets[0] and stays & {*voice.named} for voice in recent)


def changes(telling: Telling, said: Instruction, fret: Fret, told: tuple[Strings, ...]) -> bool:
    """Adds the stroke in which this fret is what is new, while the rest of the one before stays."""
    last, sentence = telling.last(), telling.sentences.of(said.start)
    if last is None or len(last.voices) < 2:
        return False
    if said.text("side") == SWAPS_TOP:
        told = (min(voice.named for voice in last.voices),)
    stays = telling.keeping and sentence <= telling.kept_until
    if len(told) != 1 or not (stays or said.text("side") in (SWAPS, SWAPS_TOP)):
        return False
    whole = _replaced(last, Voice(fret, told[0]))
    if whole is None:
        telling.keeping = False
        return False
    telling.add(said, whole)
    telling.kept_until = sentence + HOLDS
    return True


def _changed(before: Step, last: Step, stays: frozenset[int], frets: list[Fret]) -> tuple[Voice, ...] | None:
    """The stroke before with the lone note in it; None where it is none of its strings, or one that stays."""
    if len(before.voices) < 2 or len(last.voices) != 1 or last.how != "pick":
        return None
    if stays & set(last.voices[0].named):
        return None
    whole = _replaced(before, last.voices[0])
    if whole is None or (frets and not {*frets} & {voice.fret for voice in whole}):
        return None
    return whole


def _replaced(stroke: Step, new: Voice) -> tuple[Voice, ...] | None:
    """The voices of the stroke, with the new one in place of that on its string; None where it has none."""
    at = [i for i, voice in enumerate(stroke.voices) if len(new.named) and set(new.named) & set(voice.named)]
    if len(at) != 1 or stroke.how != "pick" or any(voice.how for voice in stroke.voices):
        return None
    named = replace(new, named=stroke.voices[at[0]].named)
    return (*stroke.voices[: at[0]], named, *stroke.voices[at[0] + 1 :])
