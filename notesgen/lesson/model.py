"""The model of a lesson: what `lesson.json` holds, to the letter of format `notesgen-lesson/1`.

Times are seconds from the start of the recording. Strings are numbered from 1, the thinnest. Frets count
from the capo; `"x"` is a dead note. All values are frozen: a stage that changes something makes a new one.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

FORMAT: Literal["notesgen-lesson/1"] = "notesgen-lesson/1"

Fret = int | Literal["x"]
How = Literal[
    "pick", "hammer-on", "pull-off", "slide", "bend", "pre-bend", "release", "trill", "tap", "harmonic"
]
LEGATO: frozenset[How] = frozenset({"hammer-on", "pull-off", "slide", "release"})
"""What sounds on from the note before on the same string."""
BENDS: frozenset[How] = frozenset({"bend", "pre-bend"})
"""What leaves the string bent."""
Mark = Literal["vibrato", "slide-in", "slide-out", "palm-mute", "let-ring", "staccato", "accent", "rake"]
EventOrigin = Literal["said", "derived", "decided"]
FactOrigin = Literal["said", "given", "inferred", "assumed"]
Level = Literal["query", "note"]
FlagKind = Literal[
    "string-unsaid",
    "fret-unsure",
    "count-unsure",
    "technique-unsure",
    "amount-unsure",
    "reference-unsure",
    "corrected",
    "misheard",
    "not-understood",
    "outside-key",
    "outside-position",
    "wrong-way",
    "across-strings",
    "off-the-neck",
    "bend-misses",
    "out-of-reach",
    "scale-slip",
    "told-differently",
    "count-mismatch",
    "played-differently",
    "not-played",
    "played-unsaid",
]


class Note(Struct, frozen=True, omit_defaults=True):
    """One string at one fret. `how`, `bend` and `to` are set only where they differ from the event's."""

    string: int
    fret: Fret
    how: How | None = None
    bend: float | None = None
    to: int | None = None


class Played(Struct, frozen=True):
    """What a recording says of an event: seconds, MIDI note number, beat from the phrase's start."""

    start: float
    end: float
    midi: float | None = None
    beat: float | None = None


class Event(Struct, frozen=True):
    """Notes that begin together, and how. `bend` in semitones; `to` is the other fret of a trill."""

    id: str
    start: float
    end: float
    phrase: str
    notes: tuple[Note, ...]
    how: How = "pick"
    bend: float | None = None
    to: int | None = None
    marks: tuple[Mark, ...] = ()
    origin: EventOrigin = "said"
    quote: str = ""
    flags: tuple[str, ...] = ()
    played: Played | None = None


class Stroke(Struct, frozen=True, omit_defaults=True):
    """An event that an option writes anew: what is played, with the fields of an event."""

    notes: tuple[Note, ...]
    how: How = "pick"
    bend: float | None = None
    to: int | None = None
    marks: tuple[Mark, ...] = ()


class Change(Struct, frozen=True, omit_defaults=True):
    """One edit that an option makes: the fields to set on `event`, or `drop` to take it out.

    `times` writes the event so many times in a row; `before` and `after` are written beside it.
    """

    event: str
    notes: tuple[Note, ...] | None = None
    how: How | None = None
    bend: float | None = None
    to: int | None = None
    drop: bool = False
    times: int | None = None
    before: tuple[Stroke, ...] = ()
    after: tuple[Stroke, ...] = ()

    @property
    def writes_beside(self) -> bool:
        """Whether it writes notes beside the event, which may itself be out."""
        return bool(self.before or self.after)


class Option(Struct, frozen=True):
    """A ready-made answer to a query. An empty `change` keeps the draft as it stands."""

    label: str
    change: tuple[Change, ...] = ()


class Flag(Struct, frozen=True):
    """A doubt (`query`: the teacher should answer) or a remark (`note`: already settled)."""

    id: str
    kind: FlagKind
    level: Level
    start: float
    end: float
    events: tuple[str, ...]
    quote: str
    message: str
    options: tuple[Option, ...] = ()
    decided: str | None = None


class Number(Struct, frozen=True):
    """One number of the transcript and the single thing that it turned out to be."""

    text: str
    value: int | float
    start: float
    role: str
    event: str | None = None


class Phrase(Struct, frozen=True):
    """A stretch of the lesson taught as one piece. `demos` are (start, end) of playing without talk."""

    id: str
    title: str
    start: float
    end: float
    events: tuple[str, ...]
    demos: tuple[tuple[float, float], ...] = ()


class Repeat(Struct, frozen=True):
    """The events from `first` to `last` are written once and played `times` times in all."""

    first: str
    last: str
    times: int


class Key(Struct, frozen=True):
    """A key as the teacher names it: tonic such as "Bb" or "F#", mode such as "minor pentatonic"."""

    tonic: str
    mode: str

    def __str__(self) -> str:
        return f"{self.tonic} {self.mode}"


class Position(Struct, frozen=True):
    """A scale box as read out: frets low to high for each string, keyed by the string's number."""

    label: str
    start: float
    frets: dict[str, tuple[int, ...]]
    quote: str


class FactChange(Struct, frozen=True):
    """A fact that changes, or needs a word of explanation, at a time in the lesson.

    The fact "likely key" is the key that the notes are probably in, where none was declared.
    """

    start: float
    fact: str
    value: Key | int | float | str | tuple[str, ...]
    quote: str


class Facts(Struct, frozen=True):
    """What the lesson declares. `tuning` holds the sounding open strings, string 1 first."""

    title: str
    instrument: str
    tuning: tuple[str, ...]
    capo: int = 0
    key: Key | None = None
    tempo: float | None = None
    positions: tuple[Position, ...] = ()
    changes: tuple[FactChange, ...] = ()
    origin: dict[str, FactOrigin] = {}


class Source(Struct, frozen=True):
    """Where the lesson came from. File names only, never paths."""

    captions: str
    media: str | None = None
    duration: float = 0.0
    language: str = "en"


class Lesson(Struct, frozen=True, kw_only=True):
    """The draft of one lesson. See the module's docstring for units."""

    format: Literal["notesgen-lesson/1"] = FORMAT
    source: Source
    facts: Facts
    phrases: tuple[Phrase, ...] = ()
    repeats: tuple[Repeat, ...] = ()
    events: tuple[Event, ...] = ()
    flags: tuple[Flag, ...] = ()
    numbers: tuple[Number, ...] = ()
