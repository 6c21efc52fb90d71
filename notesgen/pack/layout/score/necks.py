"""The neck that is in force at a time, and how it is written.

Guitarists think and read in shapes: with a capo, and in a lowered tuning whose keys are named as in the
standard one, what is written is what the same frets would sound without them. The score is written so, and
its `shift` says how many semitones higher it sounds.
"""

from __future__ import annotations

from functools import lru_cache

from msgspec import Struct

from notesgen.lesson.model import Facts, Fret, Key
from notesgen.music.pitch import midi
from notesgen.music.tuning import standard
from notesgen.pack.layout.score.spelling import Signature, signature

LOWEST, HIGHEST = 12, 127  # C0 to G9: the octaves that MusicXML has, as far as MIDI goes


class Neck(Struct, frozen=True):
    """`tuning` as it sounds without the capo, string 1 first; `open` the written pitch of each string.

    A string whose tuning is no pitch has None.
    """

    tuning: tuple[str, ...]
    capo: int
    open: tuple[int | None, ...]
    shift: int
    signature: Signature

    def pitch(self, string: int, fret: Fret) -> int | None:
        """The written MIDI note number, of the open string for a dead note; None where there is none."""
        base = self.open[string - 1] if 1 <= string <= len(self.open) else None
        written = None if base is None else base + (0 if fret == "x" else fret)
        return written if written is not None and LOWEST <= written <= HIGHEST else None

    def is_written_as(self, other: Neck) -> bool:
        """Whether the staves need no new key, tuning or transposition from one to the other."""
        return (self.tuning, self.capo, self.shift, self.signature.fifths) == (
            other.tuning,
            other.capo,
            other.shift,
            other.signature.fifths,
        )


@lru_cache(maxsize=64)
def _neck(tuning: tuple[str, ...], capo: int, key: Key | None, usual: int | None) -> Neck:
    sounding = [_number(name) for name in tuning]
    first = next(iter(sounding), None)
    down = usual - first if usual is not None and first is not None else 0
    flats = any("b" in name[1:] for name in tuning) and not down
    written = tuple(None if number is None else number + down for number in sounding)
    return Neck(tuning, capo, written, capo - down, signature(key, flats))


def neck(facts: Facts, at: float) -> Neck:
    """The neck at a time (seconds)."""
    tuning, capo, key = (_in_force(facts, fact, at) for fact in ("tuning", "capo", "key"))
    named = any(change.fact == "naming" and change.value == "standard" for change in facts.changes)
    return _neck(
        tuning if isinstance(tuning, tuple) else facts.tuning,
        capo if isinstance(capo, int) else facts.capo,
        key if isinstance(key, Key) else facts.key,
        _usual(facts.instrument) if named else None,
    )


def _in_force(facts: Facts, fact: str, at: float) -> object:
    changes = [change for change in facts.changes if change.fact == fact and change.start <= at]
    return max(changes, key=lambda change: change.start).value if changes else None


def _usual(instrument: str) -> int | None:
    """The first string of the instrument's standard tuning; None for an instrument not known."""
    try:
        return midi(standard(instrument)[0])
    except ValueError:
        return None


def _number(name: str) -> int | None:
    try:
        return midi(name)
    except ValueError:
        return None
