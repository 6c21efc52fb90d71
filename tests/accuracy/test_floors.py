"""Floors are written from figures, read back, and hold for the figures they were written from."""

from __future__ import annotations

from pathlib import Path

import msgspec

from tests.accuracy.figures import Facts, Figures
from tests.accuracy.floors import broken, floor_of, read_floors, write_floors
from tests.accuracy.table import row

FIGURES = Figures(
    case="a",
    gold=64,
    draft=63,
    exact=60,
    pitch_right=61,
    how_right=57,
    details=10,
    details_right=9,
    silent=2,
    flags=5,
    idle=1,
    traps=(),
    facts=Facts(True, True, False),
    wrong=(),
)


def test_a_floor_just_holds_for_its_own_figures() -> None:
    floor = floor_of(FIGURES)
    assert (floor.note_f1, floor.silent, floor.flags_per_100) == (0.94, 2, 7.82)
    assert broken(FIGURES, floor) == []


def test_each_fall_is_told() -> None:
    floor = floor_of(FIGURES)
    worse = msgspec.structs.replace(FIGURES, exact=50, silent=3, flags=9)
    assert [message.split(" ")[0] for message in broken(worse, floor)] == ["note", "3", "14.06"]


def test_floors_are_read_as_written(tmp_path: Path) -> None:
    file = tmp_path / "floors.toml"
    write_floors([FIGURES], file)
    assert read_floors(file) == {"a": floor_of(FIGURES)}


def test_a_row_shows_every_figure() -> None:
    assert row(FIGURES) == (
        "a                      notes  63/64  F1 0.945 pitch 0.961 how 0.950 detail 0.90"
        " silent   2 (3.1%) flags/100 7.8 idle 1 facts TC-"
    )
