"""What every caption format is read into: cues, words with times, and the gaps between talk."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

CaptionFormat = Literal["webvtt", "srt", "text"]


class Cue(Struct, frozen=True):
    """One caption as it stands in the file, tags and entities resolved, roll-up repeats removed.

    Times in seconds from the start of the recording. `line` is the 1-based line of the file on which the
    cue's text begins. `text` is the new text of the cue, sound labels and speaker marks included, with single
    spaces: empty when the cue only repeats earlier lines. Cues stand in the order of their start.
    """

    start: float
    end: float
    text: str
    line: int


class Word(Struct, frozen=True):
    """One word of the talk, with the punctuation that touches it, and when it is spoken (seconds).

    `exact` is true where the file itself gives the word's time, false where it is interpolated by length
    inside its cue. `cue` indexes `Transcript.cues`.
    """

    text: str
    start: float
    end: float
    cue: int
    exact: bool = False


class Gap(Struct, frozen=True):
    """A stretch without talk (seconds), from word to word: where the teacher plays.

    `label` is what the captions call it ("Music", "guitar plays"), or "". Without a label it lasts 2.5 s or
    more.
    """

    start: float
    end: float
    label: str = ""


class Transcript(Struct, frozen=True):
    """The whole talk in order: no word begins before the one before it has ended.

    Words never hold sound labels such as "[Music]": those become gaps. `duration` (seconds) is the end of the
    last cue. `warnings` name what could not be read, each with file and line.
    """

    source: str
    format: CaptionFormat
    cues: tuple[Cue, ...]
    words: tuple[Word, ...]
    gaps: tuple[Gap, ...]
    duration: float
    language: str = "en"
    warnings: tuple[str, ...] = ()
