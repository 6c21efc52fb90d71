"""The figures below which no lesson may fall: `floors.toml`."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Iterable
from pathlib import Path

from msgspec import Struct, convert

from tests.accuracy.figures import Figures

FILE = Path(__file__).with_name("floors.toml")
HEAD = "# Written by `python -m tests.accuracy --floors`. Review a change here as a change of the code.\n"


class Floor(Struct, frozen=True, forbid_unknown_fields=True):
    """What one lesson must keep: note F1 at least; silent errors and queries per 100 notes at most."""

    note_f1: float
    silent: int
    flags_per_100: float


def floor_of(figures: Figures) -> Floor:
    """The floor that these figures just keep, to two decimals."""
    return Floor(
        note_f1=math.floor(figures.note_f1 * 100) / 100,
        silent=figures.silent,
        flags_per_100=math.ceil(figures.flags_per_100 * 100) / 100,
    )


def broken(figures: Figures, floor: Floor) -> list[str]:
    """What fell below the floor, in words; empty when it holds."""
    checks = (
        (figures.note_f1 < floor.note_f1, f"note F1 {figures.note_f1:.3f} is below {floor.note_f1}"),
        (figures.silent > floor.silent, f"{figures.silent} silent errors, at most {floor.silent}"),
        (
            figures.flags_per_100 > floor.flags_per_100,
            f"{figures.flags_per_100:.2f} queries per 100 notes, at most {floor.flags_per_100}",
        ),
    )
    return [message for fell, message in checks if fell]


def read_floors(file: Path = FILE) -> dict[str, Floor]:
    """The floors by lesson."""
    return convert(tomllib.loads(file.read_text(encoding="utf-8")), dict[str, Floor])


def write_floors(all_figures: Iterable[Figures], file: Path = FILE) -> None:
    """Write the floors of these lessons, replacing the file."""
    tables = [_table(figures.case, floor_of(figures)) for figures in all_figures]
    file.write_text(HEAD + "".join(tables), encoding="utf-8")


def _table(name: str, floor: Floor) -> str:
    return (
        f"\n[{name}]\nnote_f1 = {floor.note_f1}\nsilent = {floor.silent}"
        f"\nflags_per_100 = {floor.flags_per_100}\n"
    )
