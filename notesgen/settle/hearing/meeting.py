"""Unison bends: one note of a pair is bent until it sounds like the other."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Voice
from notesgen.speech.instructions import Instruction

UNISON = "unison"  # the slot "side" of a note of a pair that is bent to meet the other
NEAR = 1  # sentences behind the pair within which one of its notes is bent to meet the other
WIDEST_BEND = 4  # semitones that a string is bent at most


def meet(telling: Telling, said: Instruction) -> bool:
    """Whether the lower note of the pair just told, or the one on the string named, is bent to the other."""
    last = telling.last()
    if last is None or len(last.voices) != 2 or last.is_bent or not telling.near(said, NEAR):
        return False
    pitches = [_pitch(telling, voice) for voice in last.voices]
    if None in pitches:
        return False
    low, high = sorted(zip(last.voices, pitches, strict=True), key=lambda one: one[1] or 0)
    told = telling.strings_of(said) + telling.strings_of(said, "other_string")
    named = {string for one in told for string in one}
    if named and not named & {*low[0].named}:
        return False
    rise = (high[1] or 0) - (low[1] or 0)
    if not 0 < rise <= WIDEST_BEND:
        return False
    voices = (replace(v, how="bend", bend=float(rise)) if v is low[0] else v for v in last.voices)
    telling.change_last(voices=tuple(voices))
    return True


def _pitch(telling: Telling, voice: Voice) -> int | None:
    """The pitch of a note whose string is known, as a MIDI number."""
    if len(voice.named) != 1 or voice.fret == "x":
        return None
    return telling.names.pitch(voice.named[0], int(voice.fret))
