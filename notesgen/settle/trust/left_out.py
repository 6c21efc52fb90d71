"""From which doubt a note that was heard is left out of the draft, as only spoken of."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.evidence import Doubt

UNLIKELY = 0.4
"""Probability that nothing is played from which a note is left out.

Lipton, Elkan and Naryanaswamy 2014, "Optimal thresholding of classifiers to maximize F1 measure": a note is
best kept as long as the chance that it is right is over half the F1 that can be reached, and left out below;
unheard speakers reach about 0.8.
"""
FEW = 10  # notes heard in all from which any is left out: a few words say nothing of how somebody talks


def left_out(doubts: Sequence[Doubt]) -> frozenset[int]:
    """The places, from 0, of the notes that are so likely only spoken of that the draft does without them."""
    unlikely = frozenset(place for place, doubt in enumerate(doubts) if doubt.spoken >= UNLIKELY)
    return unlikely if len(doubts) >= FEW else frozenset()
