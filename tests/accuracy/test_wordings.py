"""As many plain wordings as were right once must stay right: say them all, compare with wordings.toml."""

from __future__ import annotations

import tomllib

import pytest

from tests.accuracy import wordings

FLOORS = tomllib.loads(wordings.FLOORS.read_text(encoding="utf-8"))


def test_every_move_has_a_floor_and_every_floor_a_move() -> None:
    assert sorted(FLOORS) == sorted(wordings.moves())


def test_the_talks_are_the_same_on_every_run() -> None:
    assert list(wordings.talks(["two notes"])) == list(wordings.talks(["two notes"]))


@pytest.mark.parametrize("move", wordings.moves())
def test_wordings_keep_their_floor(move: str) -> None:
    right = wordings.count(map(wordings.drafted, wordings.talks([move])))
    fallen = f"{move}: {right} right (see python -m tests.accuracy.wordings --wrong '{move}')"
    assert right >= FLOORS[move], fallen
