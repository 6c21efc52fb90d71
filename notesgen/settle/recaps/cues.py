"""Which announcements of a recap hold where notes begin."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

from notesgen.settle.sentences import Sentences
from notesgen.settle.told import Cue, Heading

FAR = 4  # sentences ahead for which an announcement holds
LONG = 12  # items after which its own sentence has turned to something else


def holding(
    cues: tuple[Cue, ...], start: int, sentences: Sentences, sections: tuple[Heading, ...]
) -> list[Cue]:
    """The announcements that hold for notes that begin at item `start`."""
    return [cue for cue in _recent(cues, start, sentences) if _reaches(cue, start, sentences, sections)]


def _recent(cues: tuple[Cue, ...], start: int, sentences: Sentences) -> tuple[Cue, ...]:
    """The announcements up to item `start` that are not too far back to reach it."""
    earliest = sentences.start(max(0, sentences.of(start) - FAR))
    first = bisect_left(cues, earliest, key=lambda cue: cue.at)
    return cues[first : bisect_right(cues, start, key=lambda cue: cue.at)]


def _reaches(cue: Cue, start: int, sentences: Sentences, sections: tuple[Heading, ...]) -> bool:
    """Whether an announcement holds for a block that begins at item `start`: a heading ends it."""
    if any(cue.at < heading.start <= start for heading in sections):
        return False
    apart = sentences.of(start) - sentences.of(cue.at)
    same_stretch = sentences.stretch(start) == sentences.stretch(cue.at)
    brief = sentences.end(sentences.of(cue.at)) - cue.at <= LONG
    return apart == 0 or (not cue.weak and brief and apart <= FAR and same_stretch)
