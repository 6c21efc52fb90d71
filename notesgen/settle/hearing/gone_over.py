"""Strings to which the talk goes: they hold for what comes, and leave the notes before where they were."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO
from notesgen.settle.hearing.returning import held_by
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings
from notesgen.settle.strings import APPOSED, SAME, relation
from notesgen.settle.told import Naming
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

LEAD = 3  # items in front of a string, beyond its own words, in which the verb of going may stand
BACK = 1  # sentences back to which a string said afterwards reaches


def goes_over(telling: Telling, said: Instruction) -> bool:
    """Whether the words go to the string: "and jump to the A string", "over to the G"."""
    if not said.all("string"):
        return False
    at = slot_of(said, "string").start
    sentence = telling.sentences.start(telling.sentences.of(said.start))
    led = telling.said_between(max(sentence, said.start - LEAD), slot_of(said, "string").end)
    if led & {*telling.words.crossing}:
        return True
    leads = telling.said_between(said.start, at + 1) & {*telling.words.reaching}
    return bool(leads) and bool(led & {*telling.words.going_over})


def lead_over(telling: Telling, said: Instruction) -> None:
    """The string in front of the notes is gone to, as one named alone: "then down to the A string, 7"."""
    frets = [slot.start for slot in said.slots if slot.name in ("fret", "from")]
    strings = telling.strings_of(said)
    if len(strings) != 1 or not frets or _is_related(said) or telling.correcting is not None:
        return
    if slot_of(said, "string").start > min(frets) or not goes_over(telling, said):
        return
    leave(telling, said)
    sentence = telling.sentences.of(said.start)
    telling.namings.append(Naming(said.start, said.start, strings, sentence, ahead=True))


def _is_related(said: Instruction) -> bool:
    """Whether the string is told by the one before, with its name or without: "next string over, the D"."""
    names = (said.text("string") or "").split(APPOSED)
    return any(relation(name) is not None for name in names)


def leave(telling: Telling, said: Instruction) -> None:
    """Lays the notes before on the string that was told for nothing else, now that another is gone to."""
    naming, last = telling.named_since(), telling.last()
    if naming is None or last is None or naming.ahead or len(naming.strings) != 1 or naming.by:
        return
    if last.before or telling.sentences.of(said.start) <= naming.sentence:
        return
    lay_back(telling, naming.strings[0], naming.sentence)


def lay_back(telling: Telling, strings: Strings, sentence: int) -> None:
    """Puts the notes just told that have no string yet on this one, back to one that has its own."""
    for back in range(1, len(telling.steps) + 1):
        step = telling.steps[-back]
        named = any(voice.named for voice in step.voices) and not _is_tied_recall(telling, back)
        if named or sentence - step.sentence > BACK:
            break
        telling.steps[-back] = replace(step, voices=tuple(replace(v, named=strings) for v in step.voices))


def lay_copy(telling: Telling, strings: Strings) -> bool:
    """Whether the string is where a copy lies that was just told: "an octave higher, that's on the B"."""
    last = telling.last()
    if last is None or not last.copied or not last.elsewhere:
        return False
    copy = [step for step in telling.steps if step.copied and step.start == last.start]
    for place in range(len(last.elsewhere)):
        if any(strings == voice.named for step in copy for voice in step.elsewhere[place]):
            laid = [_at_place(step, place) for step in copy]
            telling.steps[-len(copy) :] = laid
            return True
    return any(strings == voice.named for step in copy for voice in step.voices)


def _at_place(step: Step, place: int) -> Step:
    """The step of a copy at another of its places; its own becomes one of the others."""
    others = [voices for at, voices in enumerate(step.elsewhere) if at != place]
    return replace(step, voices=step.elsewhere[place], elsewhere=(step.voices, *others), restrung=True)


def _is_tied_recall(telling: Telling, back: int) -> bool:
    """Whether a note was only told as one more of its fret, and the next one grows out of it."""
    step = telling.steps[-back]
    tied = back > 1 and telling.steps[1 - back].how in LEGATO
    return tied and step.again and step.origin == "derived" and len(step.voices) == 1


def says_it_stays(telling: Telling, said: Instruction) -> bool:
    """Whether "same string", right behind a note or a sentence by itself, is of that note; lays it there."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or telling.relation_of(said) != SAME or last.voices[0].named:
        return False
    opens = said.start == last.end or telling.items[said.start].before >= Break.HARD
    ends = said.end == len(telling.items) or telling.items[said.end].before >= Break.HARD
    ends = ends or telling.items[said.end].text in telling.words.moving_on
    if not (opens and ends) or last.before or len(last.voices) != 1 or not telling.near(said, BACK + 1):
        return False
    held = held_by(telling, len(telling.steps) - 2)
    told = tuple(replace(voice, named=held) for voice in last.voices)
    telling.change_last(voices=told, by=None if held else SAME)
    return True
