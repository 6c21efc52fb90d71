"""The figures below which the small run may not fall: `floors.toml`, by kind of captions and by voice."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct, convert

from tests.accuracy.figures import total
from tests.outside.tunes.check import Reading
from tests.outside.tunes.voices import VOICES

FILE = Path(__file__).with_name("floors.toml")
HEAD = (
    "# Written by `python -m tests.outside.tunes --floors`. Review a change here as a change of the code.\n"
)
TUNES = 32
"""The tunes of the small run."""


class Floor(Struct, frozen=True, forbid_unknown_fields=True):
    """Pitch F1 and tunes all right at least, silent wrong notes at most."""

    pitch_f1: float
    right: int
    silent: int


def groups(readings: Sequence[Reading]) -> dict[str, list[Reading]]:
    """The readings by kind of captions, and again by voice ("voice 1 fret_then_string")."""
    found: dict[str, list[Reading]] = {}
    for reading in readings:
        found.setdefault(reading.kind, []).append(reading)
    for reading in sorted(readings, key=lambda reading: reading.talk.voice):
        voice = reading.talk.voice
        found.setdefault(f"voice {voice} {VOICES[voice].__name__}", []).append(reading)
    return found


def floor_of(readings: Sequence[Reading]) -> Floor:
    """The floor that these readings just keep, F1 to two decimals."""
    figures = total([reading.figures for reading in readings])
    right = sum(reading.all_right for reading in readings)
    return Floor(math.floor(figures.pitch_f1 * 100) / 100, right, figures.silent)


def broken(now: Floor, floor: Floor) -> list[str]:
    """What fell below the floor, in words; empty when it holds."""
    checks = (
        (now.pitch_f1 < floor.pitch_f1, f"pitch F1 {now.pitch_f1} is below {floor.pitch_f1}"),
        (now.right < floor.right, f"{now.right} tunes are all right, {floor.right} were"),
        (now.silent > floor.silent, f"{now.silent} silent wrong notes, at most {floor.silent}"),
    )
    return [message for fell, message in checks if fell]


def read_floors(file: Path = FILE) -> dict[str, Floor]:
    """The floors by group."""
    return convert(tomllib.loads(file.read_text(encoding="utf-8")), dict[str, Floor])


def write_floors(readings: Sequence[Reading], file: Path = FILE) -> None:
    """Write the floors that these readings keep, replacing the file."""
    tables = [_table(name, floor_of(found)) for name, found in groups(readings).items()]
    file.write_text(HEAD + "".join(tables), encoding="utf-8")


def _table(name: str, floor: Floor) -> str:
    return f'\n["{name}"]\npitch_f1 = {floor.pitch_f1}\nright = {floor.right}\nsilent = {floor.silent}\n'
