"""Times of the recording as people write them."""

from __future__ import annotations


def clock(seconds: float) -> str:
    """Seconds as m:ss, or h:mm:ss from an hour on; parts of a second are dropped."""
    minutes, second = divmod(int(seconds), 60)
    hours, minute = divmod(minutes, 60)
    return f"{hours}:{minute:02d}:{second:02d}" if hours else f"{minutes}:{second:02d}"


def seconds(told: str) -> float:
    """The time that `clock` writes so: "1:02:05" as 3725."""
    total = 0
    for part in told.split(":"):
        total = 60 * total + int(part)
    return float(total)
