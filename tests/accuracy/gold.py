"""The right answers: `NAME.gold.tsv` and `NAME.gold.toml`, as fixtures/lessons/GOLD.md describes them."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from msgspec import Struct

from notesgen.errors import InputError
from notesgen.lesson.model import Fret

HEADER = ["time", "group", "string", "fret", "how", "extra", "doubt"]
# Only these marks are measured; the others have no place in the gold format.
MEASURED_MARKS = frozenset({"vibrato", "slide-in", "slide-out", "palm-mute", "let-ring"})


class Sounded(Struct, frozen=True, kw_only=True):
    """One note as it is measured. `time` in seconds; `together`: struck at once with other notes."""

    time: float
    string: int
    fret: Fret
    how: str
    bend: float | None
    to: int | None
    marks: frozenset[str]
    together: bool


class GoldNote(Sounded, frozen=True, kw_only=True):
    """A note of the right answer. `doubt` as in the file ("misspoken said=2/13" ...), or ""."""

    doubt: str

    @property
    def doubt_kind(self) -> str:
        """The first word of the doubt, or ""."""
        return self.doubt.partition(" ")[0]


class Gold(Struct, frozen=True):
    """The right answer for one lesson. `tuning` as in the lesson: string 1 first; `key` "" when unsaid."""

    tuning: tuple[str, ...]
    capo: int
    key: str
    notes: tuple[GoldNote, ...]


def read_gold(tsv: Path) -> Gold:
    """Read `NAME.gold.tsv` and the `NAME.gold.toml` beside it. Raises InputError with file and line."""
    facts = tomllib.loads(tsv.with_suffix(".toml").read_text(encoding="utf-8"))
    return Gold(
        tuning=tuple(facts["tuning"]),
        capo=int(facts.get("capo", 0)),
        key=str(facts.get("key", "")),
        notes=_notes(tsv),
    )


def _notes(tsv: Path) -> tuple[GoldNote, ...]:
    header, *lines = tsv.read_text(encoding="utf-8").splitlines()
    if header.split("\t") != HEADER:
        raise InputError(f"The first line must name the columns {', '.join(HEADER)}.", str(tsv), 1)
    notes = []
    for number, line in enumerate(lines, start=2):
        if not line.strip() or line.startswith("#"):
            continue
        try:
            notes.append(_note(line))
        except ValueError as error:
            raise InputError(f"This row cannot be read: {error}.", str(tsv), number) from error
    return tuple(notes)


def _note(line: str) -> GoldNote:
    cells = [cell.strip() for cell in line.split("\t")]
    cells += [""] * (len(HEADER) - len(cells))
    time, group, string, fret, how, extra, doubt = cells
    values = _extra(extra)
    return GoldNote(
        time=seconds(time),
        string=int(string),
        fret="x" if fret == "x" else int(fret),
        how=how,
        bend=float(values["bend"]) if "bend" in values else None,
        to=int(values["to"]) if "to" in values else None,
        marks=MEASURED_MARKS & values.keys(),
        together=bool(group),
        doubt=doubt,
    )


def _extra(text: str) -> dict[str, Any]:
    """ "bend=2; vibrato" as {"bend": "2", "vibrato": ""}."""
    parts = (part.strip().partition("=") for part in text.split(";") if part.strip())
    return {name: value for name, _, value in parts}


def seconds(clock: str) -> float:
    """ "1:02:03" or "2:03.5" in seconds."""
    total = 0.0
    for part in clock.split(":"):
        total = total * 60 + float(part)
    return total
