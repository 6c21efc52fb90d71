"""SubRip (.srt): numbered blocks of a time line and text. Common practice, no source: no standard exists.

Tolerant: blank lines before or inside blocks, missing numbers, comma or dot before the thousandths.
"""

from __future__ import annotations

from itertools import pairwise

from notesgen.captions.caption import Caption, Reading, Row, Warned, left_out
from notesgen.captions.clock import span
from notesgen.captions.inline import pieces


def is_srt(text: str) -> bool:
    """Whether some line is a time line."""
    return any(span(line) for line in text.split("\n") if "-->" in line)


def read(text: str) -> Reading:
    """The captions of an SRT file. Time lines that cannot be read are named in the warnings."""
    lines = text.split("\n")
    arrows = [number for number, line in enumerate(lines) if "-->" in line]
    captions: list[Caption] = []
    warnings: list[Warned] = []
    count = 1
    for arrow, following in pairwise([*arrows, len(lines)]):
        end = following
        count += 1
        if following < len(lines) and _is_index(lines, following - 1, arrow, count):
            end -= 1
        times = span(lines[arrow])
        if times is None:
            warnings.append(left_out(arrow + 1, lines[arrow]))
            continue
        texts = [number for number in range(arrow + 1, end) if lines[number].strip()]
        rows = tuple(Row(number + 1, pieces(lines[number])) for number in texts)
        captions.append(Caption(*times, arrow + 1, rows))
    return Reading(tuple(captions), tuple(warnings))


def _is_index(lines: list[str], number: int, arrow: int, count: int) -> bool:
    """Whether the line above a time line is the caption's number, not the text of the caption before."""
    line = lines[number].strip()
    if not line.isdecimal() or number <= arrow:
        return False
    return not lines[number - 1].strip() or line == str(count)
