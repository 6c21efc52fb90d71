"""One teacher's habits: how numbers, strings and fingers are said, kept through a whole talk."""

from __future__ import annotations

import random
from collections.abc import Sequence

# fmt: off
CARDINALS = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen",
)
ORDINALS = (
    "zeroth", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
    "tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth",
)
# fmt: on
ENDINGS = {1: "st", 2: "nd", 3: "rd"}
LETTERS = ("high E", "B", "G", "D", "A", "low E")
FINGERS = (
    ("index finger", "middle finger", "ring finger", "pinky"),
    ("first finger", "second finger", "third finger", "fourth finger"),
)


class Speaker:
    """Draws words for one talk; the same seed draws the same words."""

    def __init__(self, seed: str) -> None:
        self.rng = random.Random(seed)
        self.digits = self.chance(0.5)
        self.says_string = self.chance(0.5)
        self.fingers = self.rng.choice(FINGERS)

    def chance(self, share: float) -> bool:
        """True in this share of the cases."""
        return self.rng.random() < share

    def pick(self, words: Sequence[str]) -> str:
        """One of several wordings."""
        return self.rng.choice(words)

    def number(self, value: int) -> str:
        """ "7" or "seven"."""
        return str(value) if self.digits else CARDINALS[value]

    def ordinal(self, value: int) -> str:
        """ "7th" or "seventh"."""
        return f"{value}{ENDINGS.get(value, 'th')}" if self.digits else ORDINALS[value]

    def string(self, string: int) -> str:
        """ "B" or "B string", without article."""
        return LETTERS[string - 1] + (" string" if self.says_string else "")

    def finger(self, finger: int) -> str:
        """Finger 1 to 4 by the name that this teacher uses."""
        return self.fingers[finger - 1]
