"""The words of the recording for the page, with the recording itself where there is one."""

from __future__ import annotations

from msgspec import Struct

from notesgen.captions.transcript import Transcript
from notesgen.review.media import Recording


class Said(Struct, frozen=True):
    """A word and when it is said, in seconds."""

    text: str
    start: float
    end: float


class Line(Struct, frozen=True):
    """The words of one cue; `start` in seconds."""

    start: float
    words: tuple[Said, ...]


class Media(Struct, frozen=True):
    """Where the page finds the recording, what its file is called, and whether it has a picture."""

    url: str
    name: str
    kind: str


class Spoken(Struct, frozen=True):
    """All that is said, cue by cue."""

    cues: tuple[Line, ...]
    recording: Media | None


def spoken(transcript: Transcript, recording: Recording | None, url: str) -> Spoken:
    """The words of a transcript. `url` is the address of the recording, if there is one."""
    by_cue: dict[int, list[Said]] = {}
    for word in transcript.words:
        by_cue.setdefault(word.cue, []).append(Said(word.text, word.start, word.end))
    lines = tuple(Line(transcript.cues[cue].start, tuple(words)) for cue, words in by_cue.items())
    media = Media(url, recording.path.name, recording.kind) if recording else None
    return Spoken(lines, media)
