"""Two voices in one hand: bass and melody take turns, and each comes back to its own string."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice

from notesgen.grammar.model import WordLists
from notesgen.settle.step import Step, Strings

MEMORY = 6  # notes back to which the last note of a voice is looked for


def is_bass(words_before: Sequence[str], words: WordLists) -> bool:
    """Whether the thumb, or "the bass", is the player named last since the note before."""
    players = {*words.bass, *words.upper}
    player = next((word for word in reversed(words_before) if word in players), None)
    return player in words.bass


def own_string(steps: list[Step], bass: bool) -> Strings:
    """The string to which a voice comes back behind a note of the other; () where it goes on by itself.

    The melody lies on a thinner string than the bass; where it does not, the words meant something else.
    """
    if not steps or steps[-1].bass == bass:
        return ()
    other = steps[-1]
    own = next((step for step in islice(reversed(steps), MEMORY) if step.bass == bass), None)
    if own is None or own.section != other.section:
        return ()
    mine, theirs = _held(own), _held(other)
    if not mine or not theirs:
        return ()
    return mine if (min(mine) > max(theirs) if bass else max(mine) < min(theirs)) else ()


def lies_low(step: Step, strings: int) -> bool:
    """Whether the step is one note whose string is one of the thick ones, of so many in all."""
    held = _held(step)
    return len(step.voices) == 1 and bool(held) and min(held) > strings // 2


def _held(step: Step) -> Strings:
    """The string of the step's highest voice that has one: named with it, in force, or come back to."""
    return min((voice.named for voice in step.voices if voice.named), default=step.before or step.voice)
