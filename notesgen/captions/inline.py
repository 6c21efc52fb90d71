"""The text of one row: tags off, entities decoded, inline times kept.

W3C WebVTT, section 6.4 (cue text parsing rules), with one departure: a "<" that starts no closed tag is
text, where the specification would drop the rest of the cue ("if 5 < 7" is said, and no number may vanish).
"""

from __future__ import annotations

import html
import re

from notesgen.captions.caption import Piece
from notesgen.captions.clock import seconds
from notesgen.captions.decode import clean

_TAG = re.compile(r"<([/a-zA-Z0-9][^<>]*|/?)>")
# Position codes such as {\an8}, which SRT borrowed from another subtitle format.
_OVERRIDE = re.compile(r"\{\\[^{}]*\}")
# No character has so high a number, and Python refuses to read more than 4,300 digits.
_ENDLESS_REFERENCE = re.compile(r"&#[xX]?[0-9a-fA-F]{12,};?")


def pieces(row: str) -> tuple[Piece, ...]:
    """A row's text in pieces, a new one at each inline time; all other tags only vanish."""
    parts = _TAG.split(_OVERRIDE.sub("", row))
    found: list[Piece] = []
    text, start = parts[0], None
    for tag, following in zip(parts[1::2], parts[2::2], strict=True):
        time = seconds(tag)
        if time is not None:
            found.append(Piece(_plain(text), start))
            text, start = "", time
        text += following
    found.append(Piece(_plain(text), start))
    return tuple(piece for piece in found if piece.text)


def _plain(text: str) -> str:
    return clean(html.unescape(_ENDLESS_REFERENCE.sub("", text)))
