"""Two voices in one hand: bass and melody take turns or are pinched, and each comes back to its string."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice

from msgspec.structs import replace

from notesgen.grammar.model import WordLists
from notesgen.settle.step import Step, Strings

MEMORY = 6  # notes back to which the last note of a voice is looked for
PLAYER_NEAR = 10  # words up to the end of a note among which its player is named
MEANS = 4  # words behind a note among which a finger stands that it is struck with


def is_bass(words_before: Sequence[str], words: WordLists) -> bool | None:
    """Whether the thumb, or "the bass", is the player named last since the note before; None if none is."""
    players = {*words.bass, *words.upper}
    player = next((word for word in reversed(words_before) if word in players), None)
    return None if player is None else player in words.bass


def lowest(step: Step, words_before: Sequence[str], words: WordLists, count: int) -> Step:
    """The step on the lower of two strings of one name, where the bass plays it: "bass note, open E".

    `count` is how many strings there are: the thumb has those of the thick half.
    """
    voice = step.voices[0]
    low = tuple(string for string in voice.named if string > count // 2)
    if (
        len(step.voices) > 1
        or not low
        or low == voice.named
        or not is_bass(words_before[-PLAYER_NEAR:], words)
    ):
        return step
    return replace(step, voices=(replace(voice, named=low),))


def without_means(words_before: Sequence[str], words: WordLists) -> Sequence[str]:
    """The words without those at their beginning that tell what strikes the note before: "in the bass"."""
    if not words_before or words_before[0] not in {*words.by_means, *words.in_voice}:
        return words_before
    named = [at for at, word in enumerate(words_before[:MEANS]) if word in {*words.fingering, *words.bass}]
    return words_before[named[-1] + 1 :] if named else words_before


def is_thumbed(words_before: Sequence[str], words: WordLists) -> bool:
    """Whether a stroke of several voices is one of thumb and fingers: so it is told, or as a pinch."""
    return bool(set(words_before) & {*words.bass, *words.pinching, *words.pinched})


def own_string(steps: list[Step], bass: bool, count: int) -> Strings:
    """The string to which a voice comes back behind a note of the other; () where it goes on by itself.

    The melody lies on a thinner string than the bass; where it does not, the words meant something else.
    Behind a pinch both are known. `count` is how many strings there are.
    """
    if not steps:
        return ()
    other = steps[-1]
    if pinched := _pinched(other, count):
        return () if _in_parallel(steps) else pinched[0 if bass else 1]
    if other.bass == bass:
        return ()
    recent = (step for step in islice(reversed(steps), MEMORY) if step.section == other.section)
    mine = next((own for own in (_own(step, bass, count) for step in recent) if own), ())
    theirs = _held(other)
    if not mine or not theirs:
        return ()
    return mine if (min(mine) > max(theirs) if bass else max(mine) < min(theirs)) else ()


def lies_low(step: Step, strings: int) -> bool:
    """Whether the step's lowest note, or the only one, is on one of the thick strings, of so many in all."""
    if len(step.voices) > 1:
        return any(min(voice.named, default=0) > strings // 2 for voice in step.voices)
    held = _held(step)
    return bool(held) and min(held) > strings // 2


def melody_of(step: Step, count: int) -> Step | None:
    """The note above the bass in a stroke of the two, as a step of its own; None where it is none."""
    pinched = _pinched(step, count)
    if pinched is None:
        return None
    return replace(step, voices=tuple(voice for voice in step.voices if voice.named == pinched[1]))


def _own(step: Step, bass: bool, count: int) -> Strings:
    """The string of the voice in the step: as one of a pinch, or where the step is all of that voice."""
    if pinched := _pinched(step, count):
        return pinched[0 if bass else 1]
    return _held(step) if step.bass == bass else ()


def is_pinch(step: Step, count: int) -> bool:
    """Whether the step is a stroke of bass and melody: two voices, and no pair that moves as one."""
    return _pinched(step, count) is not None


def _pinched(step: Step, count: int) -> tuple[Strings, Strings] | None:
    """The lowest and the highest string of a stroke in which the thumb has one and a finger the other.

    So it is where the thumb was named, or where one of the two is open.
    """
    voices = sorted((voice for voice in step.voices if len(voice.named) == 1), key=lambda one: one.named)
    if len(voices) < 2 or len(voices) < len(step.voices) or step.how != "pick":
        return None
    high, low = voices[0], voices[-1]
    thumbed = step.bass or 0 in (low.fret, high.fret)
    return (low.named, high.named) if thumbed and low.named[0] > count // 2 and high != low else None


def _in_parallel(steps: list[Step]) -> bool:
    """Whether the last two strokes lie on the same strings: a passage in sixths or tenths."""
    if len(steps) < 2:
        return False
    one, other = ({voice.named for voice in step.voices} for step in steps[-2:])
    return one == other


def _held(step: Step) -> Strings:
    """The string of the step's highest voice that has one: named with it, in force, or come back to."""
    return min((voice.named for voice in step.voices if voice.named), default=step.before or step.voice)
