"""What sounds: tones in beats, and the phrases that they make."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

Begins = Literal["plucked", "tapped", "slurred", "held"]
"""`slurred`: another pitch on the string that already sounds, not plucked anew (hammer-on, pull-off, slide).
`held`: the same note of that string sounds on, and only its bend moves (release)."""
Voice = Literal["string", "muted", "dead", "harmonic"]
Curve = tuple[tuple[float, float], ...]
"""(beats from the tone's beginning, semitones above its `midi`), straight lines between; () stays at 0."""


class Tone(Struct, frozen=True, omit_defaults=True):
    """One string sounding at one fret. `beat` counts from the beginning of the phrase.

    `midi` is the MIDI note number of what is fretted (of what sounds, for a harmonic; of the open string,
    for a dead note). `loud` goes from 0 to 1.
    """

    event: str
    beat: float
    length: float
    string: int
    midi: int
    begins: Begins = "plucked"
    voice: Voice = "string"
    curve: Curve = ()
    loud: float = 0.8

    @property
    def end(self) -> float:
        """The beat on which it ends."""
        return self.beat + self.length

    @property
    def joined(self) -> bool:
        """Whether it goes on from the tone before it on its string."""
        return self.begins in ("slurred", "held")

    @property
    def last_offset(self) -> float:
        """Semitones above `midi` with which it ends."""
        return self.curve[-1][1] if self.curve else 0.0


class Sound(Struct, frozen=True):
    """A phrase as it sounds. `phrase` is its id, `beats` its length in whole beats.

    `even`: the lesson does not say its rhythm, or not all of it, and even eighth notes stand in.
    Tones are in order of their beats, those that begin together from the thickest string on.
    """

    phrase: str
    title: str
    tempo: float
    beats: int
    even: bool
    tones: tuple[Tone, ...]
