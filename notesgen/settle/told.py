"""What the talk told, before any hole is filled: steps in order and everything that was said about them."""

from __future__ import annotations

from msgspec import Struct

from notesgen.settle.step import Relation, Step, Strings
from notesgen.speech.instructions import Instruction

MOST_STROKES = 16  # of one note that are written out


class Naming(Struct, frozen=True):
    """Strings named on their own, from item `at` up to `end`: one tuple of candidates for each string.

    `ahead` tells that they can only hold for notes to come: "and then the A string ...", "over to the A".
    `by` tells that the string was named by that of the note before, `aside` that the words only spoke of it.
    """

    at: int
    end: int
    strings: tuple[Strings, ...]
    sentence: int
    ahead: bool = False
    by: Relation | None = None
    aside: bool = False


class Cue(Struct, frozen=True):
    """Words at item `at` that announce a recap, or that its notes are played again.

    A weak announcement of a recap holds for its own sentence only; one that notes are played again stands
    behind them when it is weak.
    """

    at: int
    weak: bool


class Heading(Struct, frozen=True):
    """Words from item `start` up to `end` that begin a section; the lesson's start has none."""

    start: int
    end: int


class Loop(Struct, frozen=True):
    """Steps `first` to `last` (places in the telling) are played `times` times in all.

    `open` holds the words when the number was left open ("3 or 4").
    """

    first: int
    last: int
    times: int
    open: str = ""


class Ahead(Struct, frozen=True):
    """The words that counted a passage to come, the place of its first step, and its sentence."""

    said: Instruction
    first: int
    sentence: int


class Told(Struct, frozen=True):
    """The steps, and by item or by place in them what else was said.

    `outside`, `seams` and `boxes` are items: remarks that a note is outside the key, words at which a run
    of notes is cut, and announcements of a scale box. A step's section counts from 1 into `sections`. `held`
    are places of fingers only put down, and of the `preamble`: numbers before the first note. `skipped` are
    the instructions that nothing came of: in a frame ("don't play ..."), or stray; `unwritten` are
    references whose notes could not be worked out. `spoken_of` are strings named where nothing is played.
    """

    steps: tuple[Step, ...]
    namings: tuple[Naming, ...]
    loops: tuple[Loop, ...]
    recaps: tuple[Cue, ...]
    anew: tuple[Cue, ...]
    outside: tuple[int, ...]
    sections: tuple[Heading, ...]
    seams: tuple[int, ...]
    boxes: tuple[int, ...]
    held: frozenset[int]
    skipped: tuple[Instruction, ...]
    unwritten: tuple[Instruction, ...] = ()
    preamble: frozenset[int] = frozenset()
    spoken_of: tuple[Naming, ...] = ()


def read_count(text: str | None) -> tuple[int, str]:
    """A count as the grammar writes it: "3" gives (3, ""); "3 or 4" gives (3, "3 or 4"); none gives 1.

    A count that nobody strikes is no count: "5000" gives (1, "5000").
    """
    if not text:
        return 1, ""
    first, separator, _ = text.partition(" or ")
    number = int(float(first)) if first.replace(".", "").isdigit() else 1
    if number > MOST_STROKES:
        return 1, text
    return number, text if separator else ""
