"""WebVTT out (W3C WebVTT, Candidate Recommendation, 4 April 2019)."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

# What cue text must not hold as it stands (section 4.2.2); ">" is written so that no "-->" can arise.
ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;"})


class Timed(Struct, frozen=True):
    """Text shown from `start` to `end` (seconds), on one line."""

    start: float
    end: float
    text: str


def written(cues: Iterable[Timed], language: str = "") -> str:
    """The file. Cues without text are left out, as no reader shows them."""
    header = "WEBVTT" + (f"\nLanguage: {language}" if language else "")
    shown = (cue for cue in cues if cue.text.strip())
    blocks = (f"{_time(cue.start)} --> {_time(cue.end)}\n{_text(cue.text)}" for cue in shown)
    return "\n\n".join([header, *blocks]) + "\n"


def _text(text: str) -> str:
    """One line, without characters that no text may hold (section 4.1: no NUL)."""
    return " ".join(text.replace("\0", "\N{REPLACEMENT CHARACTER}").split()).translate(ESCAPES)


def _time(seconds: float) -> str:
    """ "00:01:02.500" (section 4.2.1)."""
    minutes, milliseconds = divmod(round(seconds * 1000), 60_000)
    hours, minute = divmod(minutes, 60)
    return f"{hours:02d}:{minute:02d}:{milliseconds // 1000:02d}.{milliseconds % 1000:03d}"
