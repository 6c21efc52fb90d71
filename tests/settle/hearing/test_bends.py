"""Releases carry the bend that they let down, in semitones."""

from __future__ import annotations

import pytest

from notesgen.rehearsal.run import hear

RELEASES = [
    ("bend the 7 on the G a full step and release", 2.0),
    ("bend the 7 on the G a half step and release", 1.0),
    ("7 on the G, bend it up a quarter tone, then let it down", 0.5),
]


@pytest.mark.parametrize(("heard", "semitones"), RELEASES)
def test_a_release_carries_its_bend(heard: str, semitones: float) -> None:
    bent, released = hear(heard).lesson.events
    assert (bent.how, released.how) == ("bend", "release")
    assert bent.bend == released.bend == semitones
