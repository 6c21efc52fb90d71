"""A shape that the teacher has a word for: "by bar I mean a finger over the two low strings", "bar at 5".

The word is free, so no wording can hold it: it is found beside the explanation, and known again by itself.
"""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.placed import Grip
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import OwnShape, Step, Strings, Voice
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

NAMED = "named"  # the slot "side" of words that explain what the teacher's own word stands for
NAMED_WITHIN = 10  # items in front of the explanation within which the word is given
CALLED_WITHIN = 4  # items around a fret, or a string, within which the word is said
USED_WITHIN = 2  # sentences back to which the word was used before it was explained


def define(telling: Telling, said: Instruction) -> bool:
    """Remembers the strings that the word stands for; says whether one is given.

    Where the word was used just before, its fret lies on all of the strings.
    """
    strings, word = telling.strings_of(said), _word_given(telling, said)
    if not word or len(strings) < 2:
        return False
    telling.own_shape = OwnShape(word, tuple(Voice(0, one) for one in strings))
    telling.shape = telling.own_shape.voices
    for step in _used_before(telling, said):
        place = telling.steps.index(step)
        telling.steps[place] = _laid(step, telling.own_shape.voices)
    grip = telling.grip
    near = telling.sentences.of(said.start) - telling.sentences.of(max(0, grip.at - 1)) <= USED_WITHIN
    if grip.frets and near and word in telling.said_between(grip.at - CALLED_WITHIN, grip.at):
        telling.grip = Grip()
        strike(telling, said, next(iter(grip.frets.values())))
    return True


def recalls(telling: Telling, said: Instruction) -> bool:
    """Whether the teacher's word is said with a fret, and its shape is in force again."""
    slots = [slot for slot in said.slots if slot.name == "fret" and slot.end > slot.start]
    if not telling.own_shape.word or not slots:
        return False
    last = telling.last()
    start = max(slots[0].start - CALLED_WITHIN, last.end if last is not None else 0)
    if telling.own_shape.word not in telling.said_between(min(start, said.start), slots[0].start):
        return False
    telling.shape = telling.own_shape.voices
    return True


def takes(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether the frets are those of the teacher's own shape; strikes it at each."""
    if strings or not recalls(telling, said):
        return False
    for fret in frets:
        strike(telling, said, fret)
    return True


def strike(telling: Telling, said: Instruction, fret: Fret) -> None:
    """Strikes the teacher's own shape at the fret."""
    telling.shape = telling.own_shape.voices
    telling.add(said, [Voice(fret, voice.named) for voice in telling.shape])


def _used_before(telling: Telling, said: Instruction) -> list[Step]:
    """The bare frets told with the word before it was explained."""
    here, word = telling.sentences.of(said.start), telling.own_shape.word
    recent = [step for step in telling.steps if here - step.sentence <= USED_WITHIN]
    bare = [step for step in recent if len(step.voices) == 1 and not step.voices[0].named]
    return [one for one in bare if word in telling.said_between(one.start - CALLED_WITHIN, one.end)]


def _laid(step: Step, shape: tuple[Voice, ...]) -> Step:
    return replace(step, voices=tuple(Voice(step.frets[0], voice.named) for voice in shape))


def _word_given(telling: Telling, said: Instruction) -> str:
    """The word that is explained: in front, "by bar I mean", or behind, "I call that the clamp"."""
    words, string = telling.words, slot_of(said, "string")
    names = {*words.giving_names}
    behind = telling.said_between(string.end, said.end) & names
    after = telling.items[said.end : said.end + 1]
    if behind:
        return after[0].text if after and after[0].before < Break.HARD else ""
    start = max(0, said.start - NAMED_WITHIN, telling.sentences.start(telling.sentences.of(said.start)))
    lead = telling.items[start : said.start + 1]
    given = next((at for at, item in enumerate(lead) if item.text in names), None)
    if given is None:
        return ""
    told = [item.text for item in lead[given + 1 : said.start - start]]
    content = [word for word in told if word not in words.light and word not in words.struck]
    return content[-1] if content else ""
