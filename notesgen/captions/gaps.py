"""The stretches without talk: where the teacher plays."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from notesgen.captions.timing import SILENCE
from notesgen.captions.transcript import Gap, Word

# A label that has less time than this (seconds) between the words names a sound under the talk.
_SHORTEST_LABELLED = 0.5


def gaps(words: Sequence[Word], labels: Sequence[Gap], duration: float) -> tuple[Gap, ...]:
    """All gaps in order (seconds): silences of 2.5 s and more, and shorter ones that a label names.

    `labels` in order of their start. A gap reaches from word to word, so labelled and silent stretches that
    touch are one gap; it bears the label that takes up most of it.
    """
    edges = [0.0, *(edge for word in words for edge in (word.start, word.end)), duration]
    apart = _apart(labels)
    found: list[Gap] = []
    first = 0
    for start, end in list(pairwise(edges))[::2]:
        while first < len(apart) and apart[first].end <= start:
            first += 1
        longest, label = _longest(apart, first, start, end)
        if end - start >= SILENCE or longest >= _SHORTEST_LABELLED:
            found.append(Gap(round(start, 3), round(end, 3), label))
    return tuple(found)


def _longest(labels: Sequence[Gap], first: int, start: float, end: float) -> tuple[float, str]:
    """The label, from number `first` on, that takes up most of the stretch: its share (seconds), its name."""
    longest, label = 0.0, ""
    while first < len(labels) and labels[first].start < end:
        shared = min(end, labels[first].end) - max(start, labels[first].start)
        if shared > longest:
            longest, label = shared, labels[first].label
        first += 1
    return longest, label


def _apart(labels: Sequence[Gap]) -> list[Gap]:
    """The labels, each ending where the next begins."""
    starts = [*(label.start for label in labels[1:]), float("inf")]
    return [
        Gap(label.start, min(label.end, following), label.label)
        for label, following in zip(labels, starts, strict=False)
    ]
