"""Bytes to clean text: UTF-8 or UTF-16, "\\n" line ends, no characters that XML 1.0 forbids."""

from __future__ import annotations

import codecs
import re

from notesgen.errors import InputError

# More NUL bytes than this share of the file mean that it is no text at all.
_NUL_SHARE = 0.1

# XML 1.0, production [2] Char: tab, line feed, carriage return and U+0020 upwards, without surrogates,
# U+FFFE and U+FFFF. The invisible marks (zero-width spaces, direction marks) are legal, but hide in words.
_FORBIDDEN = re.compile("[\x00-\x08\x0e-\x1f\ud800-\udfff\ufffe\uffff\u200b-\u200f\u2060\ufeff]")
_OTHER_SPACE = re.compile("[\x0b\x0c\x85\u2028\u2029]")

BINARY = "This is a picture, a recording or other binary data, not captions; give a .vtt, .srt or .txt file."
# PNG, JPEG, PDF, ZIP, Ogg, RIFF, FLAC, ID3, Matroska. From memory of their specifications.
_PICTURES_AND_RECORDINGS = (
    b"\x89PNG", b"\xff\xd8\xff", b"%PDF", b"PK\x03\x04", b"OggS", b"RIFF", b"fLaC", b"ID3", b"\x1aE\xdf\xa3",
)  # fmt: skip


def decode(data: bytes, source: str) -> str:
    """The text of a caption file.

    Raises InputError if it is empty, binary, or neither UTF-8 nor UTF-16 with a byte order mark.
    """
    if not data.strip():
        raise InputError("The file is empty; give the captions of the lesson.", source)
    if data.startswith(_PICTURES_AND_RECORDINGS):
        raise InputError(BINARY, source)
    text = _decoded(data, source)
    if text.count("\0") > _NUL_SHARE * len(text):
        raise InputError(BINARY, source)
    text = clean(text.replace("\r\n", "\n").replace("\r", "\n"))
    if not text.strip():
        raise InputError("There is no text in the file; give the captions of the lesson.", source)
    return text


def clean(text: str) -> str:
    """The text without the characters that no output may hold; rare kinds of white space become a space."""
    return _FORBIDDEN.sub("", _OTHER_SPACE.sub(" ", text))


def _decoded(data: bytes, source: str) -> str:
    wide = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    try:
        return data.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError as error:
        name = "UTF-16" if wide else "UTF-8"
        # `error.object` is the data after the byte order mark, where utf-8-sig has taken one off.
        before = bytes(error.object)[: error.start]
        line = (before.decode("utf-16", "ignore") if wide else before.decode()).count("\n") + 1
        raise InputError(
            f"This is not {name} text (byte 0x{error.object[error.start]:02X} cannot be read); "
            "save the captions as UTF-8 and try again.",
            source,
            line,
        ) from None
