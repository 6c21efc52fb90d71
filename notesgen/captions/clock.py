"""Times of day-less clocks as captions write them: "1:02", "1:02:03", "00:01:02.500", "00:01:02,500"."""

from __future__ import annotations

import re

TIME = r"(?:\d{1,4}:)?\d{1,2}:\d{1,2}(?:[.,]\d{1,3})?"
TIMING = re.compile(rf"\s*(?P<start>{TIME})\s*-->\s*(?P<end>{TIME})(?!\d)", re.ASCII)

_PARTS = re.compile(r"(?:(\d{1,4}):)?(\d{1,3}):(\d{1,2})(?:[.,](\d{1,3}))?", re.ASCII)


def seconds(text: str) -> float | None:
    """The time in seconds, or None if it is no time (minutes or seconds of 60 and more, say)."""
    match = _PARTS.fullmatch(text.strip())
    if match is None:
        return None
    hours, minutes, whole = int(match[1] or 0), int(match[2]), int(match[3])
    if whole > 59 or (match[1] and minutes > 59):
        return None
    # Milliseconds as an integer first, so that "0.1" and "0.100" are the same float.
    thousandths = int((match[4] or "").ljust(3, "0"))
    return (((hours * 60 + minutes) * 60 + whole) * 1000 + thousandths) / 1000


def span(line: str) -> tuple[float, float] | None:
    """Start and end (seconds) of a line "start --> end ...", or None if either cannot be read."""
    match = TIMING.match(line)
    if match is None:
        return None
    start, end = seconds(match["start"]), seconds(match["end"])
    return None if start is None or end is None else (start, end)


def clock(time: float) -> str:
    """A time in seconds as people read it: 62.5 -> "1:02", 3723 -> "1:02:03"."""
    minutes, whole = divmod(int(time), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{whole:02}" if hours else f"{minutes}:{whole:02}"
