"""Captions from a file or from standard input."""

from __future__ import annotations

import sys
from pathlib import Path

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript
from notesgen.errors import InputError

STANDARD_INPUT = "-"


def load_captions(path: str) -> Transcript:
    """The transcript of the captions at `path`, or of standard input for "-".

    Raises InputError if there is no such file, it may not be read, or it holds no captions.
    """
    if path == STANDARD_INPUT:
        return read_captions(sys.stdin.buffer.read(), "standard input")
    return read_captions(_bytes(path), Path(path).name)


def _bytes(path: str) -> bytes:
    if not path:
        raise InputError("The path of the captions is empty; give a caption file.")
    try:
        return Path(path).read_bytes()
    except FileNotFoundError:
        raise InputError("There is no such file; check the path.", path) from None
    except IsADirectoryError:
        raise InputError("This is a folder; give a caption file.", path) from None
    except PermissionError:
        raise InputError("This file may not be read; check its permissions.", path) from None
    except (OSError, ValueError):
        raise InputError("This file cannot be read; check the path.", path) from None
