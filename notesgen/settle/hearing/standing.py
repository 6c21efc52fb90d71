"""Whether a fret that is named is a note already told: the one that sounds, or one that is only spoken of."""

from __future__ import annotations

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.slots import named_at
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Strings
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

LEAD = 3  # items in front of a fret among which "from" makes it a start: "from that open string"
NEAR = 2  # sentences within which the last note still sounds


def starts_from(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether a lone fret is the note just told, from which the next one starts: "from this 5 you ..."."""
    last = telling.last()
    if last is None or len(frets) != 1 or frets[0] not in last.frets or not telling.near(said, NEAR):
        return False
    slot = next((slot for slot in said.slots if slot.name in ("fret", "string")), None)
    if slot is None or last.placed:
        return False
    lead = telling.items[max(last.end, slot.start - LEAD) : slot.start + 1]
    sources = [at for at, item in enumerate(lead) if item.text in telling.words.source]
    if not sources:
        return False
    pointing = {*telling.words.pointing, *telling.words.article}
    between = [item.text for item in lead[sources[-1] + 1 : -1]]
    held = {s for voice in last.voices if voice.fret == frets[0] for s in voice.named or last.before}
    return set(between) <= pointing and not is_elsewhere(strings, held)


def is_spoken_of(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> bool:
    """Whether a note told before is called by fret and string to say what it is, or that it still sounds."""
    if len(frets) != 1 or not strings or not _is_stated(telling, said):
        return False
    told = [step for step in telling.steps[-LOOK_BACK:] if len(step.voices) == 1]
    return any(step.frets == tuple(frets) and step.voices[0].named in strings for step in told)


def _is_stated(telling: Telling, said: Instruction) -> bool:
    """Whether the sentence goes on to say what the note is; not "then the D sounds good", which approves.

    What the words lead on to is the next note, whatever is said of it.
    """
    words, behind = telling.words, telling.items[said.end : said.end + 2]
    if not behind or behind[0].text not in words.stating or behind[0].before >= Break.HARD:
        return False
    last = telling.last()
    lead = telling.said_between(last.end if last else said.start, named_at(said, "fret"))
    approves = behind[-1].text in words.interjections
    return not approves and not lead & {*words.moving_on, *words.going_back}


def is_the_slip(telling: Telling, said: Instruction, frets: list[Fret]) -> bool:
    """ "Thirteen, no, fourteen. Thirteen is another song": what was taken back is only spoken of."""
    last = telling.last()
    if last is None or not telling.near(said, 1) or said.end >= len(telling.items):
        return False
    opens = telling.sentences.start(telling.sentences.of(said.start)) == said.start
    stated = telling.items[said.end].text in telling.words.stating
    return opens and stated and bool(frets) and last.corrected == str(frets[0]) and len(frets) == 1


def is_elsewhere(strings: tuple[Strings, ...], held: set[int]) -> bool:
    """Whether the words name a string, and it is none of those on which the note told may be."""
    return bool(strings and held) and not held & set(strings[0])
