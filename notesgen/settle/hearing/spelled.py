"""Notes that spell out what was just told: a shape that moved, frets that the captions ran together."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from notesgen.settle.step import Step, Voice
from notesgen.speech.numbers import HIGHEST_FRET

SPELLED_WITHIN = 8  # items within which a moved shape is spelled out
RUN_TOGETHER = (2, 3, 4)  # frets that captions may write as one number
SHAPES = (1, 2, 3)  # steps that may spell out a shape

SaidBetween = Callable[[int, int], frozenset[str]]


def fold(steps: list[Step], said_between: SaidBetween) -> None:
    """Takes back the last steps where they spell out what stands before them.

    "Up two frets, so 14 on the G, 13 on the B" is one pair; "97, nine and then seven" are two notes.
    """
    for size in RUN_TOGETHER:
        if _spells_run(steps[-2 * size : -size], steps[-size:], said_between):
            del steps[-size:]
            return
    for size in SHAPES:
        if len(steps) > size and _spells_out(steps[-size - 1], steps[-size:]):
            spelled = [voice for step in steps[-size:] for voice in step.voices]
            steps[-size - 1 :] = [_respelled(steps[-size - 1], spelled)]
            return


def _spells_run(run: list[Step], spelled: list[Step], said_between: SaidBetween) -> bool:
    """Whether the frets are told one by one, and at once, that the captions ran together."""
    if len(run) < len(spelled) or any(step.start != run[0].start for step in run):
        return False
    if spelled[0].start - run[0].end > 1 or any(s.how != "pick" or s.voices[0].named for s in spelled):
        return False
    words = said_between(run[0].start, run[0].end)
    digits = any(word.isdigit() and int(word) > HIGHEST_FRET for word in words)
    return digits and [step.frets for step in run] == [step.frets for step in spelled]


def _spells_out(moved: Step, spelled: list[Step]) -> bool:
    """Whether the steps name the voices of a moved shape, at least half of them right."""
    if moved.origin != "derived" or moved.retold or len(moved.voices) < 2:
        return False
    frets = [fret for step in spelled for fret in step.frets]
    close = spelled[0].start - moved.end <= SPELLED_WITHIN
    plain = all(step.how == "pick" and step.origin == "said" and not step.again for step in spelled)
    agree = sum(fret in moved.frets for fret in frets)
    return len(frets) == len(moved.voices) and close and plain and agree * 2 >= len(frets)


def _respelled(moved: Step, spelled: list[Voice]) -> Step:
    """The moved shape, its voices in the order in which they are spelled out."""
    left = list(moved.voices)
    voices: list[Voice | None] = []
    for said in spelled:
        same = next((v for v in left if v.fret == said.fret or (said.named and v.named == said.named)), None)
        voices.append(same)
        if same:
            left.remove(same)
    ordered = tuple(voice or left.pop(0) for voice in voices)
    return replace(moved, voices=ordered, retold=tuple(voice.fret for voice in spelled))
