"""The recording beside the captions, and how a browser is told what it is."""

from __future__ import annotations

import mimetypes
from pathlib import Path
from typing import Literal

from msgspec import Struct

from notesgen.errors import InputError

# What browsers commonly play; looked for beside the captions in this order.
VIDEO = {".mp4": "video/mp4", ".webm": "video/webm", ".m4v": "video/mp4", ".mov": "video/quicktime"}
AUDIO = {
    ".m4a": "audio/mp4",
    ".mp3": "audio/mpeg",
    ".ogg": "audio/ogg",
    ".opus": "audio/ogg",
    ".flac": "audio/flac",
    ".wav": "audio/wav",
}
KNOWN = VIDEO | AUDIO


class Recording(Struct, frozen=True):
    """A media file: where it lies, and its media type (RFC 6838)."""

    path: Path
    type: str

    @property
    def kind(self) -> Literal["video", "audio"]:
        """How the page shows it; what is not known to be sound alone is tried as a film."""
        return "audio" if self.type.startswith("audio/") else "video"


def named(path: Path) -> Recording:
    """The recording that the teacher names. Raises InputError when there is no such file."""
    if not path.is_file():
        told = "This is a folder" if path.is_dir() else "There is no such file"
        raise InputError(f"{told}; give the recording, a video or audio file.", str(path))
    return _recording(path)


def beside(captions: Path) -> Recording | None:
    """The recording that lies beside the captions and bears their name, if there is one."""
    found = (captions.with_suffix(suffix) for suffix in KNOWN)
    return next((_recording(path) for path in found if path.is_file() and path != captions), None)


def _recording(path: Path) -> Recording:
    guessed = KNOWN.get(path.suffix.lower()) or mimetypes.guess_type(path.name)[0]
    playable = guessed is not None and guessed.startswith(("video/", "audio/"))
    return Recording(path, guessed if guessed and playable else "application/octet-stream")
