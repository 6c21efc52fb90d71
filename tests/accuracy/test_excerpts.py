"""As many short excerpts as were right once must stay right: read them all, compare with excerpts.toml."""

from __future__ import annotations

import tomllib

import pytest

from tests.accuracy import excerpts

FLOORS = tomllib.loads(excerpts.FLOORS.read_text(encoding="utf-8"))


def test_every_file_has_a_floor_and_every_floor_a_file() -> None:
    assert sorted(FLOORS) == excerpts.names()


@pytest.mark.parametrize("name", excerpts.names())
def test_excerpts_keep_their_floor(name: str) -> None:
    right = excerpts.count(excerpts.drafted(name))
    fallen = f"{name}: {right} right (see python -m tests.accuracy.excerpts {name} --wrong)"
    assert right >= FLOORS[name], fallen


@pytest.mark.parametrize(
    ("event", "compared"),
    [
        ("5/7", "5/7"),
        ("5/7 pick", "5/7"),
        ("4/9 hammer-on", "4/9 hammer-on"),
        ("6/3+5/5", "5/5+6/3"),
        ("1/x", "1/x"),
    ],
)
def test_notes_struck_together_are_compared_whatever_their_order(event: str, compared: str) -> None:
    assert excerpts.plain(event) == compared
