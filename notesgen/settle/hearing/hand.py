"""The fretting hand: where it is, which finger is on which fret, and so what a finger's name stands for.

One finger has one fret, from the first on; a finger that was said to be at a fret is there until the hand
moves. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct
from msgspec.structs import replace

from notesgen.settle.step import Step, Strings

FINGERS = {"index": 1, "middle": 2, "ring": 3, "little": 4}
STRETCH = 1  # frets by which a finger may leave its place while the hand stays
SPAN = 4  # frets from the first finger to the last, with a stretch


class Placed(Struct, frozen=True):
    """A finger on a fret; `strings` are those that it may be on, empty where nothing was said."""

    fret: int
    strings: Strings = ()


class Hand(Struct, frozen=True):
    """What is known of the hand: the fret under its first finger, and the fingers whose fret was said.

    `declared` tells that the teacher said where the hand or its first finger is.
    """

    base: int | None = None
    declared: bool = False
    fingers: Mapping[int, Placed] = {}

    def at(self, fret: int) -> Hand:
        """The hand in a position that was named."""
        return Hand(fret, True)

    def put(self, finger: int, fret: int, strings: Strings = ()) -> Hand:
        """The hand with a finger at a fret; it moves along where that is out of the finger's reach."""
        base = fret - finger + 1
        stays = self.base is not None and abs(base - self.base) <= STRETCH and finger != 1
        kept = {one: at for one, at in self.fingers.items() if _beside(one, at.fret, finger, fret)}
        return Hand(
            base=self.base if stays else max(base, 1),
            declared=self.declared if stays else finger == 1,
            fingers={**kept, finger: Placed(fret, strings)},
        )

    def moved(self, by: int) -> Hand:
        """The whole hand some frets further, as a slide takes it."""
        if self.base is None:
            return self
        fingers = {one: Placed(at.fret + by, at.strings) for one, at in self.fingers.items()}
        return replace(self, base=max(self.base + by, 1), fingers=fingers)

    def reached(self, fret: int) -> Hand:
        """The hand after a note told without a finger: unknown, where it could not have been played there."""
        return self if self.base is None or self.covers(fret) else Hand()

    def covers(self, fret: int) -> bool:
        """Whether the fret lies under the hand, or an open string leaves it where it is."""
        return fret == 0 or self.base is None or -STRETCH <= fret - self.base <= SPAN

    def fret_of(self, finger: int) -> int | None:
        """Where the finger is, or would come down; None where nothing is known of the hand."""
        if finger in self.fingers:
            return self.fingers[finger].fret
        return None if self.base is None else self.base + finger - 1

    def is_sure_of(self, finger: int) -> bool:
        """Whether it was said where the finger is, or where the hand is."""
        return finger in self.fingers or self.declared

    def behind(self, fret: int, strings: Strings) -> int | None:
        """The highest fret below this one at which a finger was said to be, on the same string."""
        below = [
            at.fret
            for at in self.fingers.values()
            if 0 < fret - at.fret <= SPAN + STRETCH and set(at.strings) & set(strings)
        ]
        return max(below, default=None)


def followed(hand: Hand, before: Step | None, step: Step) -> Hand:
    """The hand after a step, `before` being the one told last: slides and named fingers move it."""
    if len(step.voices) > 1 or step.frets[0] in ("x", 0) or step.how in ("tap", "harmonic"):
        return hand
    fret = int(step.frets[0])
    if step.finger:
        return hand.put(step.finger, fret, step.voices[0].named or step.before)
    start = before.frets[0] if before and len(before.voices) == 1 else 0
    if step.how == "slide" and start not in ("x", 0) and hand.covers(int(start)):
        return hand.moved(fret - int(start))
    return hand.reached(fret)


def _beside(one: int, at: int, finger: int, fret: int) -> bool:
    """Whether a finger can stay where it is when another comes down at a fret."""
    apart = abs(one - finger)
    rises = (at - fret) * (one - finger) >= 0
    return one != finger and rises and abs(at - fret) <= apart + STRETCH
