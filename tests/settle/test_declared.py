"""How people declare instrument, tuning, capo and key, and words that look alike and declare nothing."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from notesgen.music.pitch import midi
from notesgen.music.tuning import parse_tuning
from notesgen.rehearsal.run import hear

FILE = Path(__file__).parent / "declared.toml"
REST = " And then fret 5, and then fret 7." * 12  # the rest of a lesson, which declares nothing


class Declares(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Words at the start of a lesson, why they matter, and what they declare; None is not tested."""

    why: str
    heard: str
    instrument: str | None = None
    tuning: str | None = None
    capo: int | None = None
    key: str | None = None


class AllDeclares(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """The file."""

    about: str
    lesson: tuple[Declares, ...]


ALL = [
    pytest.param(lesson, id=lesson.why)
    for lesson in msgspec.toml.decode(FILE.read_bytes(), type=AllDeclares).lesson
]


@pytest.mark.parametrize("lesson", ALL)
def test_declared(lesson: Declares) -> None:
    facts = hear(lesson.heard + REST).lesson.facts
    if lesson.instrument is not None:
        assert facts.instrument == lesson.instrument
    if lesson.tuning is not None:
        assert _sounding(facts.tuning) == _sounding(parse_tuning(lesson.tuning, facts.instrument))
    if lesson.capo is not None:
        assert facts.capo == lesson.capo
    if lesson.key is not None:
        assert str(facts.key or "") == lesson.key


def _sounding(strings: tuple[str, ...]) -> list[int]:
    return [midi(name) for name in strings]
