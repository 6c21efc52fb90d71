"""What the talk says about the lesson that `lesson.json` has no place for, and that checks need."""

from __future__ import annotations

from msgspec import Struct


class Doubt(Struct, frozen=True):
    """How likely an event is wrong: no such `note` is played there, or it is on another `string`."""

    note: float = 0.0
    string: float = 0.0

    @property
    def wrong(self) -> float:
        """The probability that the event is wrong in either way."""
        return 1 - (1 - self.note) * (1 - self.string)


class Evidence(Struct, frozen=True):
    """Event ids about which the teacher said something that bears on a check.

    `outside` holds notes announced as outside the key ("passing note", "this one's outside"); `sure` holds
    events whose every note had its string and fret said in so many words. `doubts` holds one doubt for each
    of the lesson's events, in their order.
    """

    outside: frozenset[str] = frozenset()
    sure: frozenset[str] = frozenset()
    doubts: tuple[Doubt, ...] = ()
