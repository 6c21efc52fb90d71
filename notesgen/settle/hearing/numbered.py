"""Pairs called by their number: "first pair 7 and 6, second pair 9 and 8, then back to the first pair"."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing import notes
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

PAIR = 2  # voices of a pair
TOLD_WITHIN = 4  # items behind "the second pair" within which its frets are told
TELLS = ("fret", "from", "place")  # slots by which an instruction tells them


def strike_numbered(telling: Telling, said: Instruction) -> None:
    """Strikes the pair of that number once more; where its frets follow, they are told as one."""
    lead = telling.said_between(said.start - 1, said.start)
    if lead & {*telling.words.moving_on, *telling.ordinals} and said.all("count"):
        fret = replace(slot_of(said, "count"), name="fret")  # "the next pair two and four"
        notes.note(telling, replace(said, kind="note", slots=(replace(fret, start=said.end - 1),)))
        return
    if _is_told_next(telling, said):
        telling.together_at, telling.chord_at, telling.chord_voices = said.start, said.end, PAIR
        return
    pairs, number = _pairs(telling), said.whole("count") or 0
    if 0 < number <= len(pairs):
        strike_over(telling, said, [replace(pairs[number - 1], how="pick", bend=None, marks=())])


def _is_told_next(telling: Telling, said: Instruction) -> bool:
    coming = telling.coming
    if coming is None or not any(coming.all(slot) for slot in TELLS):
        return False
    near = coming.start - said.end <= TOLD_WITHIN
    moved = telling.said_between(said.end, coming.start + 1) & {*telling.words.moving_on}
    return near and not moved and telling.sentences.of(coming.start) == telling.sentences.of(said.end - 1)


def _pairs(telling: Telling) -> list[Step]:
    """The pairs of the section in the order in which they were first told."""
    pairs: dict[frozenset[tuple[object, ...]], Step] = {}
    for step in telling.steps:
        if len(step.voices) == PAIR and step.section == len(telling.sections):
            pairs.setdefault(frozenset((voice.fret, voice.named) for voice in step.voices), step)
    return list(pairs.values())
