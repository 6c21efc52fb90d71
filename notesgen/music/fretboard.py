"""Where pitches lie on the neck."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from notesgen.music.pitch import midi


@dataclass(frozen=True)
class Fretboard:
    """The neck of an instrument.

    `tuning` names the open strings without the capo, string 1 (the thinnest) first. `capo` and `frets` are
    counted from the nut; everywhere else fret 0 is the capo. Raises ValueError if the tuning is empty, if it
    holds what is no pitch, or if the capo is not on the neck.
    """

    tuning: tuple[str, ...]
    capo: int = 0
    frets: int = 24

    def __post_init__(self) -> None:
        if not self.tuning:
            raise ValueError("A fretboard needs at least one string.")
        if not 0 <= self.capo <= self.frets:
            raise ValueError(f"The capo at fret {self.capo} is not on a neck of {self.frets} frets.")
        for name in self.tuning:
            midi(name)

    @property
    def strings(self) -> int:
        """The number of strings."""
        return len(self.tuning)

    @property
    def lowest(self) -> int:
        """The string that sounds lowest when it is open."""
        return min(range(1, self.strings + 1), key=lambda string: self.pitch(string, 0))

    @property
    def highest(self) -> int:
        """The highest fret, counted from the capo."""
        return self.frets - self.capo

    def has(self, string: int, fret: int) -> bool:
        """Whether there is such a string and fret."""
        return (string, fret) in self._pitches

    def pitch(self, string: int, fret: int) -> int:
        """The MIDI note number of a place. Raises ValueError if it is not on the neck."""
        found = self._pitches.get((string, fret))
        if found is None:
            raise ValueError(f"There is no fret {fret} on string {string} of this neck.")
        return found

    def places(self, pitch: int) -> tuple[tuple[int, int], ...]:
        """All (string, fret) that sound a MIDI note number, from string 1 on; () if none does."""
        return self._places.get(pitch, ())

    # Both tables are made once: the search for fingerings asks them for every note.
    @cached_property
    def _pitches(self) -> dict[tuple[int, int], int]:
        return {
            (string, fret): midi(name) + self.capo + fret
            for string, name in enumerate(self.tuning, start=1)
            for fret in range(self.highest + 1)
        }

    @cached_property
    def _places(self) -> dict[int, tuple[tuple[int, int], ...]]:
        found: dict[int, list[tuple[int, int]]] = {}
        for place, pitch in self._pitches.items():
            found.setdefault(pitch, []).append(place)
        return {pitch: tuple(places) for pitch, places in found.items()}
