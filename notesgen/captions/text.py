"""Plain transcripts: lines that begin with a time, "[1:02] so the first one's up at the seventh fret".

Common practice, no source: no standard exists. A line without a time continues the one before; a markdown
heading is no speech, but a time in it counts.
"""

from __future__ import annotations

import re
from itertools import pairwise

from msgspec import Struct

from notesgen.captions.caption import Caption, Reading, Row, Warned
from notesgen.captions.clock import clock, seconds
from notesgen.captions.inline import pieces
from notesgen.captions.pace import natural

_TIME = r"(?:\d{1,4}:)?\d{1,3}:\d{2}(?:[.,]\d{1,3})?"
_SPAN = rf"\s*(?P<start>{_TIME})(?:\s*(?:-->|-|–)\s*(?P<end>{_TIME}))?\s*"
_BRACKETED = re.compile(rf"[\[(]{_SPAN}[\])]", re.ASCII)
_BARE = re.compile(rf"{_SPAN}(?=[\s,:–-]|\*|$)", re.ASCII)
# What may stand before the time (heading marks, bullets, bold) and between it and the words.
_LEAD = re.compile(r"\s*(?P<heading>#{1,6}\s+)?(?:[-*•>]\s+)*(?:\*\*)?")
_AFTER = re.compile(r"(?:\*\*)?\s*(?:[:–-]\s+)?")


class _Line(Struct, frozen=True):
    """A line of the transcript: its time, if it has one, and what is said in it."""

    number: int
    start: float | None
    end: float | None
    text: str


class _Block(Struct, frozen=True):
    """A time and the lines spoken from then on."""

    start: float
    end: float | None
    line: int
    rows: list[Row]


def is_text(text: str) -> bool:
    """Whether some line begins with a time."""
    return any(line.start is not None for line in _lines(text))


def read(text: str) -> Reading:
    """The captions of a plain transcript. Lines before the first time are left out, with a warning."""
    blocks: list[_Block] = []
    warnings: list[Warned] = []
    for line in _lines(text):
        latest = blocks[-1].start if blocks else -1.0
        if line.start is not None and line.start > latest:
            blocks.append(_Block(line.start, line.end, line.number, []))
        elif line.start is not None and line.start < latest:
            told = f"The time {clock(line.start)} is before {clock(latest)}"
            warnings.append(Warned(line.number, f"{told}; its words were joined to those before."))
        if not line.text:
            continue
        if blocks:
            blocks[-1].rows.append(Row(line.number, pieces(line.text)))
        else:
            warnings.append(Warned(line.number, "This line was left out: it has no time before it."))
    return Reading(_captions(blocks), tuple(warnings), paced=True)


def _captions(blocks: list[_Block]) -> tuple[Caption, ...]:
    """Each block lasts to the next one's start unless its own end is given; the last, as its words take."""
    if not blocks:
        return ()
    last = blocks[-1]
    spoken = natural(sum(len(row.text.split()) for row in last.rows))
    starts = [*(block.start for block in blocks), last.end or round(last.start + spoken, 3)]
    return tuple(
        Caption(start, min(block.end or following, following), block.line, tuple(block.rows))
        for block, (start, following) in zip(blocks, pairwise(starts), strict=True)
    )


def _lines(text: str) -> list[_Line]:
    """The lines with their times. Where some times stand in brackets, a bare "4:30" is something said."""
    lines = text.split("\n")
    leads = [_LEAD.match(line) for line in lines]
    begins = [lead.end() if lead else 0 for lead in leads]
    bracketed = any(_BRACKETED.match(line, begin) for line, begin in zip(lines, begins, strict=True))
    pattern = _BRACKETED if bracketed else _BARE
    return [
        _line(number, line, begin, bool(lead and lead["heading"]), pattern)
        for number, (line, lead, begin) in enumerate(zip(lines, leads, begins, strict=True), start=1)
    ]


def _line(number: int, line: str, begin: int, heading: bool, pattern: re.Pattern[str]) -> _Line:
    match = pattern.match(line, begin)
    start = seconds(match["start"]) if match else None
    if match is None or start is None:
        return _Line(number, None, None, "" if heading else line[begin:].strip())
    end = seconds(match["end"]) if match["end"] else None
    after = _AFTER.match(line, match.end())
    text = line[after.end() if after else match.end() :].strip()
    return _Line(number, start, end if end is not None and end > start else None, "" if heading else text)
