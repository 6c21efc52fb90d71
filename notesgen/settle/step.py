"""Steps: what is to be played, in order, with the holes that the words left open."""

from __future__ import annotations

from msgspec import Struct

from notesgen.lesson.model import BENDS, LEGATO, Fret, How, Mark

Strings = tuple[int, ...]


class Relation(Struct, frozen=True):
    """A string named by the one before it: `ways` leads there, in strings towards the thick side.

    `turns` tells that "up" and "down" were said, which some teachers mean by pitch, some by the hand.
    """

    ways: tuple[int, ...]
    turns: bool = False


class Abreast(Struct, frozen=True):
    """Strings struck as one, as was said at item `at` of the section; one tuple of candidates each.

    `lasts` tells that they stay so: "everything after that is on these two".
    """

    strings: tuple[Strings, ...] = ()
    at: int = -1
    section: int = 0
    lasts: bool = False


class OwnShape(Struct, frozen=True):
    """A shape for which the teacher has a word; its voices hold frets above that of the first one."""

    word: str = ""
    voices: tuple[Voice, ...] = ()


class Rooted(Struct, frozen=True):
    """Shapes told by the fret of their lowest note, in a section from item `at` on; `home` is the string
    of the last one.

    `rises` holds a pair for each voice: how many strings it lies towards the thin side, and how many frets
    higher; None stands for as many as an octave takes.
    """

    rises: tuple[tuple[int, int | None], ...] = ()
    home: Strings = ()
    section: int = 0
    at: int = -1


class Announced(Struct, frozen=True):
    """A technique told ahead of its notes, in the section and sentence given; `first` is the place they take.

    `passage` tells that it holds for list after list, `size` how many notes one stroke has, 0 for all.
    `joined` counts the notes that were played so, `run` those since the last stroke, `misfits` those since
    that were not.
    """

    how: str
    sentence: int
    section: int
    first: int
    passage: bool = False
    size: int = 0
    joined: int = 0
    run: int = 0
    misfits: int = 0


class Voice(Struct, frozen=True):
    """One string of a step. `named` holds the strings that the words allow; empty: nothing was said.

    `how` and `bend` (semitones) are set where this voice differs from its step, as in a unison bend.
    """

    fret: Fret
    named: Strings = ()
    how: How | None = None
    bend: float | None = None


class Step(Struct, frozen=True):
    """Voices that begin together. `start` and `end` index items; sentences count from 0, sections from 1.

    `before` are the strings in force from an earlier naming; `closes` tells that the step's own string was
    named behind its fret, and so may hold for the frets before it. `doubt` is the reading's own doubt,
    `misheard` what it took for something else; `corrected` holds the slip that the step puts right, in
    words; the `unsure_*` fields hold what was left open. `placed` marks a finger only put down, `fingered`
    a fret with a finger named for it, `stroke` a string struck as it was held, `again` a
    stroke repeated, `retold` how a moved shape was spelled out, `letter` the note's name as said,
    `outside` a note announced as outside the key, `copied` what a reference tells over,
    `restrung` that it names the string for it,
    `elsewhere` the other places to which it may move the step. `bass` marks a note of the thumb,
    `voice` holds the string to which bass or melody comes back behind the other. `by` tells that the
    string was named by that of the step before. `finger` is the one
    named for it (1 to 4, 0 when none); `by_finger` tells that its fret is where that finger is and was not
    said, `unsure_hand` that the hand's place was not either. `settled` are the strings that it gets while
    nothing is yet known to be retold. `joined` marks a technique that its own wording does not tell.
    """

    voices: tuple[Voice, ...]
    start: int
    end: int
    sentence: int
    section: int
    how: How = "pick"
    bend: float | None = None
    to: int | None = None
    marks: tuple[Mark, ...] = ()
    before: Strings = ()
    doubt: float = 0.0
    origin: str = "said"
    corrected: str = ""
    unsure_count: str = ""
    unsure_how: tuple[How, ...] = ()
    unsure_chord: str = ""
    unsure_fret: int | None = None
    amount_unsaid: bool = False
    again: bool = False
    closes: bool = False
    retold: tuple[Fret, ...] = ()
    placed: bool = False
    fingered: bool = False
    stroke: bool = False
    letter: str = ""
    letter_at_once: bool = False
    outside: bool = False
    misheard: tuple[str, ...] = ()
    by: Relation | None = None
    finger: int = 0
    by_finger: bool = False
    unsure_hand: bool = False
    settled: Strings = ()
    copied: bool = False
    restrung: bool = False
    elsewhere: tuple[tuple[Voice, ...], ...] = ()
    bass: bool = False
    voice: Strings = ()
    joined: bool = False

    @property
    def frets(self) -> tuple[Fret, ...]:
        """The frets of all voices, in the order said."""
        return tuple(voice.fret for voice in self.voices)

    @property
    def is_told_slurred(self) -> bool:
        """Whether its own wording told a technique, as people do who tell what to play."""
        return self.how != "pick" and not self.joined

    @property
    def is_slurred_on(self) -> bool:
        """Whether it is slurred from the note before, and so lies on its string."""
        return self.how in LEGATO and "slide-in" not in self.marks

    @property
    def is_bent(self) -> bool:
        """Whether any voice leaves the string bent."""
        return self.how in BENDS or any(voice.how in BENDS for voice in self.voices)
