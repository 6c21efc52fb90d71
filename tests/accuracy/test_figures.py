"""No lesson may fall below its floor: draft all lessons, compare with floors.toml."""

from __future__ import annotations

import pytest

from tests.accuracy import cases
from tests.accuracy.floors import broken, read_floors

CASES = cases.find()


def test_every_lesson_has_a_floor_and_every_floor_a_lesson() -> None:
    assert set(read_floors()) == {case.name for case in CASES}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_lesson_keeps_its_floor(case: cases.Case) -> None:
    fallen = broken(cases.figures(case), read_floors()[case.name])
    assert not fallen, f"{case.name}: {'; '.join(fallen)} (see python -m tests.accuracy {case.name} --wrong)"
