"""A chord told along the strings, a fret each: "A minor, from the A string down: open, 2, 2, 1, open"."""

from __future__ import annotations

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings, Voice
from notesgen.speech.instructions import Instruction

ACROSS = "across"  # the slot "side" of frets told along the strings
A_CHORD = 3  # frets from which they are those of a chord
NAMES, STRUCK = ("key", "chord", "grip"), ("together", "strum")  # what is said in front of it, or behind
NEXT_TO = 2  # items between such words and the frets


def strike_across(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> bool:
    """Strikes a fret on each string, from the first one named on; False where there are too few of them.

    "Down" is by pitch or by the neck: the chord goes to the side on which it has as many strings.
    """
    row = _row(strings, len(frets), telling.names.count)
    if len(frets) < A_CHORD or not row or not (len(strings) > 1 or _is_chord(telling, said, row)):
        return False
    telling.add(said, [Voice(fret, (string,)) for fret, string in zip(frets, row, strict=True)])
    return True


def _is_chord(telling: Telling, said: Instruction, row: list[int]) -> bool:
    """Whether it is no run on the one string: named as a chord, struck at once, or on all that follow."""
    before, coming = telling.preceding, telling.coming
    named = before is not None and before.kind in NAMES and said.start - before.end <= NEXT_TO
    struck = coming is not None and coming.kind in STRUCK and coming.start - said.end <= NEXT_TO
    ways = telling.said_between(said.start, said.end) & {*telling.words.ways_over}
    return named or struck or (bool(ways) and row[-1] == 1)


def _row(strings: tuple[Strings, ...], size: int, count: int) -> list[int]:
    """The strings from the first one named to the last, or so many to the thin side, else to the thick."""
    ends = [max(one) for one in strings]
    if not ends:
        return []
    first = ends[0]
    if len(strings) > 1:
        reach = [last for last in strings[1] if abs(last - first) + 1 == size]
        last = reach[0] if reach else first
    elif first >= size:
        last = first - size + 1
    else:
        last = first + size - 1
    step = 1 if last >= first else -1
    return list(range(first, last + step, step)) if abs(last - first) + 1 == size and last <= count else []
