"""Short talks and the notes that they must give: a file in talks/ is a family of cases, each with its reason.

Notes are written as in the grammar's examples. A talk may also say which flags it raises (kinds, in order),
what its numbers became, which events are derived and which passages are repeated.
"""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from notesgen.lesson.model import Lesson
from notesgen.pipeline import Given
from notesgen.rehearsal import notation
from notesgen.rehearsal.run import hear
from notesgen.settle.trust.ask import Ask

FOLDER = Path(__file__).parent / "talks"


class Talk(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Words, why they matter, and what must come of them. What is left out may be anything."""

    why: str
    heard: str
    notes: tuple[str, ...]
    flags: tuple[str, ...] | None = None
    numbers: tuple[str, ...] | None = None
    derived: tuple[str, ...] = ()
    repeats: tuple[str, ...] = ()
    key: str | None = None
    tuning: str | None = None
    capo: int | None = None
    instrument: str | None = None


class Talks(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One file of talks."""

    about: str
    talk: tuple[Talk, ...]


ALL = [
    pytest.param(talk, id=f"{path.stem}: {talk.heard}")
    for path in sorted(FOLDER.glob("*.toml"))
    for talk in msgspec.toml.decode(path.read_bytes(), type=Talks).talk
]


def lesson(talk: Talk, ask: Ask = Ask.NORMAL) -> Lesson:
    given = Given(talk.key, talk.tuning, talk.capo, talk.instrument, ask=ask)
    return hear(talk.heard, given).lesson


@pytest.mark.parametrize("talk", ALL)
def test_talk(talk: Talk) -> None:
    drafted = lesson(talk, Ask.LESS)  # a short talk says little of its teacher
    wanted = [notation.parse(note) for note in talk.notes]
    got = [str(notation.written(event)) for event in drafted.events]
    fits = [one.fits(event) for one, event in zip(wanted, drafted.events, strict=False)]
    assert len(wanted) == len(got) and all(fits), f"{talk.why}\nwanted {talk.notes}\ngot    {got}"
    if talk.flags is not None:
        assert tuple(flag.kind for flag in drafted.flags) == talk.flags, talk.why
    if talk.numbers is not None:
        assert tuple(f"{one.text} {one.role}" for one in drafted.numbers) == talk.numbers, talk.why
    assert tuple(event.id for event in drafted.events if event.origin == "derived") == talk.derived
    assert tuple(f"{one.first} {one.last} {one.times}" for one in drafted.repeats) == talk.repeats


@pytest.mark.parametrize("talk", ALL)
def test_a_string_that_nobody_said_is_asked_for(talk: Talk) -> None:
    drafted = lesson(talk)
    asked = {event for flag in drafted.flags if flag.kind == "string-unsaid" for event in flag.events}
    unsaid = {
        event.id for note, event in zip(talk.notes, drafted.events, strict=True) if notation.parse(note).asks
    }
    assert unsaid <= asked
