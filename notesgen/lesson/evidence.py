"""What the talk says about the lesson that `lesson.json` has no place for, and that checks need."""

from __future__ import annotations

from msgspec import Struct


class Evidence(Struct, frozen=True):
    """Event ids about which the teacher said something that bears on a check.

    `outside` holds notes announced as outside the key ("passing note", "this one's outside"); `sure` holds
    events whose every note had its string and fret said in so many words.
    """

    outside: frozenset[str] = frozenset()
    sure: frozenset[str] = frozenset()
