"""How fast people talk."""

from __future__ import annotations

# Common practice, no source: unhurried talk to a camera is 150 to 170 words a minute.
WORDS_PER_SECOND = 2.7


def natural(words: int) -> float:
    """Seconds that so many words take at an unhurried pace."""
    return words / WORDS_PER_SECOND
