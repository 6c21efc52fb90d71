"""How the pitch of a tone moves: bends, releases, slides, vibrato. Shapes are common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.pack.layout.sounding.tone import Curve
from notesgen.pack.layout.strokes import Stroke

USUAL_BEND = 2.0
"""Where the lesson leaves open how far."""
RISE = 0.4
"""Beats that a bend, a release and a slide take, at most; at most half of the tone, too."""
SLIDE_IN = 2
"""Frets below from which a slide into a note comes."""
SLIDE_OUT = 4
"""Frets by which a slide off a note falls."""
VIBRATO_RATE = 5.5
"""Waves a second."""
VIBRATO_DEPTH = 0.35
"""Semitones. A string can only be pulled tighter: the pitch goes up and back, from a bend down and back."""


def curve(
    stroke: Stroke, length: float, tempo: float, *, begins_at: float | None, glides_to: float | None
) -> Curve:
    """The curve of a tone of `length` beats.

    `begins_at`: for what goes on from another pitch (a release), semitones above its own. `glides_to`: where
    the tone slides into the next, semitones from its own pitch to that one's.
    """
    time = min(RISE, length / 2)
    points = list(_beginning(stroke, time, begins_at))
    level = points[-1][1] if points else 0.0
    settled = points[-1][0] if points else 0.0
    leaves = _leaves_to(stroke, level) if glides_to is None else glides_to
    end = length if leaves is None else length - time
    if "vibrato" in stroke.marks:
        points += _vibrato(settled, end, level, tempo)
    if leaves is not None:
        points += [(end, level), (length, leaves)]
    return tuple((round(beat, 4), round(offset, 4)) for beat, offset in points)


def _beginning(stroke: Stroke, time: float, begins_at: float | None) -> Iterator[tuple[float, float]]:
    amount = USUAL_BEND if stroke.bend is None else stroke.bend
    if stroke.how == "bend":
        yield from ((0.0, 0.0), (time, amount))
    elif stroke.how == "pre-bend":
        yield 0.0, amount
    elif begins_at is not None:
        yield from ((0.0, begins_at), (time, 0.0))


def _leaves_to(stroke: Stroke, level: float) -> float | None:
    """Where a slide off the note ends."""
    if "slide-out" not in stroke.marks or not isinstance(stroke.fret, int):
        return None
    return level - min(SLIDE_OUT, stroke.fret)


def _vibrato(start: float, end: float, level: float, tempo: float) -> Iterator[tuple[float, float]]:
    """Whole waves that fit between `start` and `end`, after a while without."""
    half = tempo / 60 / VIBRATO_RATE / 2
    start += min(half, (end - start) / 4)
    away = level - VIBRATO_DEPTH if level > 0 else level + VIBRATO_DEPTH
    for wave in range(int((end - start) / (2 * half))):
        begins = start + 2 * half * wave
        yield from ((begins, level), (begins + half, away))
        yield begins + 2 * half, level
