"""Root and fifth told in one breath are a power chord: "5 on the A and 7 on the D and the G"."""

from __future__ import annotations

from notesgen.settle.hearing.joined import fits, join, known
from notesgen.settle.hearing.telling import Telling

NEXT_TO = 1  # items between the root and the rest of its chord
FIFTH_AND_OCTAVE = ((1, 2), (2, 2))  # strings and frets from the root; low strings a fourth apart
UPPER = ((1, 2), (2, 3))  # ... where the octave lies on the B string


def complete_power(telling: Telling) -> None:
    """Joins the root told right before fifth and octave, where nothing says that it comes first."""
    root, rest = telling.last(2), telling.last()
    if root is None or rest is None or len(root.voices) != 1 or len(rest.voices) != 2:
        return
    if root.sentence != rest.sentence or not fits(root, rest) or "x" in (*root.frets, *rest.frets):
        return
    if rest.start - root.end > NEXT_TO:
        return
    if telling.said_between(root.end, rest.end) & {*telling.words.moving_on}:
        return
    base = known(root)[0]
    if len(base.named) != 1:
        return
    rises = tuple((base.named[0] - v.named[0], int(v.fret) - int(base.fret)) for v in rest.voices)
    if tuple(sorted(rises)) in (FIFTH_AND_OCTAVE, UPPER):
        join(telling)
