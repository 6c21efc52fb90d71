"""`draft.json`: what the words alone gave, kept in the pack so that an answer needs no captions.

It is what `lesson.json` would be without decisions and without the flags of the checks, which are run anew.
"""

from __future__ import annotations

from typing import Literal

import msgspec
from msgspec import Struct

from notesgen.errors import InputError
from notesgen.lesson.evidence import Counted, Evidence, LikelyKey, Spelled
from notesgen.lesson.model import Lesson, Played
from notesgen.lesson.problem import explain
from notesgen.lesson.store import encode
from notesgen.settle.settle import Settled

FILE = "draft.json"
AGAIN = "Draft the captions again: notesgen draft."


class _Kept(Struct, frozen=True, kw_only=True):
    format: Literal["notesgen-draft/1"] = "notesgen-draft/1"
    outside: tuple[str, ...]
    sure: tuple[str, ...]
    counted: tuple[Counted, ...] = ()
    spelled: tuple[Spelled, ...] = ()
    heard: tuple[Played, ...] = ()
    likely: LikelyKey | None = None
    lesson: Lesson


class _Raw(Struct, frozen=True, kw_only=True):
    format: str = "notesgen-draft/1"
    outside: list[str]
    sure: list[str]
    counted: tuple[Counted, ...]
    spelled: tuple[Spelled, ...]
    heard: tuple[Played, ...]
    likely: LikelyKey | None
    lesson: msgspec.Raw


def encode_draft(draft: Settled) -> bytes:
    """The draft as JSON, the same bytes for the same draft."""
    evidence = draft.evidence
    raw = _Raw(
        outside=sorted(evidence.outside),
        sure=sorted(evidence.sure),
        counted=evidence.counted,
        spelled=evidence.spelled,
        heard=evidence.heard,
        likely=evidence.likely,
        lesson=msgspec.Raw(encode(draft.lesson)),
    )
    return msgspec.json.encode(raw) + b"\n"


def decode_draft(data: bytes, source: str) -> Settled:
    """The draft that `data` holds. Raises InputError when it is none; `source` names it there."""
    try:
        kept = msgspec.json.decode(data, type=_Kept)
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        raise InputError(f"{explain(str(error))} {AGAIN}", source) from error
    said = frozenset(kept.outside), frozenset(kept.sure)
    return Settled(kept.lesson, Evidence(*said, kept.counted, kept.spelled, kept.heard, kept.likely))
