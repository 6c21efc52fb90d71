"""What the talk says about the lesson that `lesson.json` has no place for, and that checks need."""

from __future__ import annotations

from msgspec import Struct

from notesgen.lesson.model import Key, Played


class Counted(Struct, frozen=True):
    """A number of notes that the teacher named: "that's five notes", "one pick, three notes".

    `runs` are the runs of events that the words may sum up or announce, the likeliest first: event ids in
    order. `start` is in seconds.
    """

    count: int
    start: float
    quote: str
    runs: tuple[tuple[str, ...], ...]


class Spelled(Struct, frozen=True):
    """Names of notes read out in a row behind what was taught: "that is B, A, G".

    `events` are the ids of those taught before, in order, the last one last; more of them than letters.
    """

    letters: tuple[str, ...]
    events: tuple[str, ...]
    start: float
    quote: str


class LikelyKey(Struct, frozen=True):
    """The key that the notes are probably in, where none was said; `probability` is 0 to 1.

    So many of the `notes` lie `inside` it.
    """

    key: Key
    probability: float
    inside: int
    notes: int


class Doubt(Struct, frozen=True):
    """How likely an event is wrong: no such `note` is played there, or it is on another `string`.

    `spoken` tells how likely nothing is played there at all.
    """

    note: float = 0.0
    string: float = 0.0
    spoken: float = 0.0

    @property
    def wrong(self) -> float:
        """The probability that the event is wrong in either way."""
        return 1 - (1 - self.note) * (1 - self.string)


class Evidence(Struct, frozen=True):
    """Event ids about which the teacher said something that bears on a check, and other such words.

    `outside` holds notes announced as outside the key ("passing note", "this one's outside"); `sure` holds
    events whose every note had its string and fret said in so many words. `heard` holds what a recording
    sounds and no event names; it is empty as long as no recording is read. `doubts` holds one
    doubt for each of the lesson's events, in their order. `likely` is None where a key was
    said or given, and where the notes do not tell.
    """

    outside: frozenset[str] = frozenset()
    sure: frozenset[str] = frozenset()
    counted: tuple[Counted, ...] = ()
    spelled: tuple[Spelled, ...] = ()
    heard: tuple[Played, ...] = ()
    likely: LikelyKey | None = None
    doubts: tuple[Doubt, ...] = ()
