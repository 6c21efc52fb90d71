"""How likely each drafted event is wrong, by sort of error.

A logistic regression over the clues: each clue adds its weight to the log-odds. The weights stand in
`weights.toml`, which `python -m tests.accuracy --fit` writes from the lessons with right answers.
"""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from math import exp

from msgspec import Struct, convert

from notesgen.lesson.evidence import Doubt
from notesgen.settle.trust.clues import Clues

FILE = "weights.toml"


class Weights(Struct, frozen=True, forbid_unknown_fields=True):
    """Log-odds: `bias` where nothing is known, and what each clue adds."""

    bias: float
    clues: Clues

    def chance(self, clues: Clues) -> float:
        """The probability that what these weights are about is so."""
        pairs = zip(self.clues.values(), clues.values(), strict=True)
        return 1 / (1 + exp(-self.bias - sum(weight * value for weight, value in pairs)))


class Model(Struct, frozen=True, forbid_unknown_fields=True):
    """What is asked of each event: is it this `note`, is it on this `string`, is it only `spoken` of?"""

    note: Weights
    string: Weights
    spoken: Weights

    def doubt(self, clues: Clues) -> Doubt:
        """How likely the event is wrong."""
        return Doubt(
            note=self.note.chance(clues), string=self.string.chance(clues), spoken=self.spoken.chance(clues)
        )


@cache
def fitted() -> Model:
    """The weights as fitted."""
    text = files(__package__).joinpath(FILE).read_text(encoding="utf-8")
    return convert(tomllib.loads(text), Model)
