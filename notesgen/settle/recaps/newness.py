"""How likely it is that a run of notes is none of the piece's own: told over, explained or only spoken of.

The weights are those of a logistic regression over the runs of the lessons with right answers, each run
weighted by its notes. No single piece of evidence decides, nor does a rule: what a rule takes for a
retelling is new all the same where strings, slurs and "then" say so.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import exp

from msgspec.structs import astuple

from notesgen.settle.recaps.evidence import Course, Evidence, Likeness, Ruled, Run, Said

AGAINST = Evidence(
    run=Run(
        alone=-0.83,
        two=-0.32,
        three=-0.63,
        long=1.18,
        named=-1.55,
        in_force=-0.85,
        slurred=-1.79,
        bent=0.70,
        corrected=-0.49,
        doubt=1.75,
        spread=-1.22,
        in_a_row=-0.51,
        opens=-0.43,
        closes=-0.21,
    ),
    said=Said(
        moving_on=-0.49,
        begins_on=-1.10,
        again=-0.54,
        same=-0.57,
        striking=-0.40,
        string=-0.35,
        okay=0.69,
        player=-0.63,
    ),
    likeness=Likeness(near=0.37, ahead=-0.82, unknown=0.72, long_known=0.46),
    course=Course(
        section=0.78,
        following=0.65,
        before_playing=0.61,
        after_playing=0.43,
        interrupted=-0.64,
        announced=0.42,
    ),
    ruled=Ruled(hinted=0.95, repeated=1.33, goes_on=1.28, opens=0.92),
)
BIAS = 1.18  # of a run of which nothing is known


def doubtfulness(found: Evidence) -> float:
    """The probability that the run is no new notes."""
    score = BIAS + sum(weight * value for weight, value in zip(flat(AGAINST), flat(found), strict=True))
    return 1 / (1 + exp(-score))


def flat(found: Evidence) -> Iterator[float]:
    """All evidence in order, laid flat."""
    for group in astuple(found):
        yield from astuple(group)
