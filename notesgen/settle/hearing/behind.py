"""Strings named behind the second pair of a row: "first pair 7 and 6, next pair 9 and 8, on G and B"."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step

CALLED_WITHIN = 2  # items in front of two frets within which they are called a pair
NEXT_TO = 1  # items between the two


def lay_pair_before(telling: Telling) -> None:
    """Lays the pair told without strings just before on those of the pair told last."""
    if len(telling.steps) < 3:
        return
    first, second, named = telling.steps[-3:]
    bare = all(_is_bare(step) for step in (first, second))
    close = second.start - first.end <= NEXT_TO and first.sentence == named.sentence
    called = telling.said_between(first.start - CALLED_WITHIN, first.start) & {*telling.words.a_pair}
    if not (bare and close and called) or len(named.voices) != len((first, second)):
        return
    lying = zip((first, second), named.voices, strict=True)
    voices = tuple(replace(step.voices[0], named=voice.named) for step, voice in lying)
    telling.steps[-3:] = [replace(first, voices=voices, end=second.end), named]


def _is_bare(step: Step) -> bool:
    return len(step.voices) == 1 and step.how == "pick" and not (step.voices[0].named or step.before)
