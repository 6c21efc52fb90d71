"""How likely it is that a run of notes is none of the piece's own: told over, explained or only spoken of.

A logistic regression over the runs of the lessons with right answers, each run weighted by its notes. The
weights stand in `newness.toml`, which `python -m tests.accuracy --fit` writes. No single piece of evidence
decides, nor does a rule: what a rule takes for a retelling is new all the same where strings, slurs and
"then" say so.
"""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Iterator, Mapping
from functools import cache
from importlib.resources import files
from math import exp

from msgspec import Struct, convert
from msgspec.structs import asdict

from notesgen.settle.recaps.evidence import Evidence
from notesgen.settle.recaps.manner import Kind

FILE = "newness.toml"


class Against(Struct, frozen=True, forbid_unknown_fields=True):
    """Log-odds against new notes: the `bias` of any run, what its evidence adds, and the words around it.

    `manner` holds the kinds of words by where they stand.
    """

    bias: float
    evidence: Evidence
    manner: Mapping[str, Mapping[str, float]] = {}

    def chance(self, evidence: Evidence, manner: Collection[Kind]) -> float:
        """The probability that the run is no new notes."""
        pairs = zip(named(self.evidence), named(evidence), strict=True)
        score = self.bias + sum(weight * value for (_, weight), (_, value) in pairs)
        score += sum(self.manner.get(where, {}).get(name, 0.0) for where, name in manner)
        return 1 / (1 + exp(-score))


def named(found: Evidence) -> Iterator[tuple[Kind, float]]:
    """All evidence with its names: ("run", "alone")."""
    for group, values in asdict(found).items():
        for name, value in asdict(values).items():
            yield (group, name), value


@cache
def fitted() -> Against:
    """The weights as fitted."""
    text = files(__package__).joinpath(FILE).read_text(encoding="utf-8")
    return convert(tomllib.loads(text), Against)
