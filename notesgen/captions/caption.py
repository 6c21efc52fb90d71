"""What a format module reads: captions as the file has them, before roll-up repeats are removed."""

from __future__ import annotations

from msgspec import Struct


class Piece(Struct, frozen=True):
    """A run of text in a row. `start` (seconds) is when it is spoken, None where the file does not say."""

    text: str
    start: float | None = None


class Row(Struct, frozen=True):
    """One line of text on the screen, tags and entities resolved; `line` is its 1-based line in the file."""

    line: int
    pieces: tuple[Piece, ...]

    @property
    def text(self) -> str:
        """The row's words with single spaces; "" for a blank row."""
        return " ".join("".join(piece.text for piece in self.pieces).split())

    @property
    def timed(self) -> bool:
        """Whether the file gives a time inside the row."""
        return any(piece.start is not None for piece in self.pieces)


class Caption(Struct, frozen=True):
    """One caption of the file: shown from `start` to `end` (seconds). `line` is where it begins (1-based)."""

    start: float
    end: float
    line: int
    rows: tuple[Row, ...]


class Warned(Struct, frozen=True):
    """What is wrong on a line (1-based) that could not be read as it stands, and what was done."""

    line: int
    text: str


class Reading(Struct, frozen=True):
    """All that a format module gets from a file. `paced`: `end` is no end of speech, but the next start."""

    captions: tuple[Caption, ...]
    warnings: tuple[Warned, ...] = ()
    language: str = "en"
    paced: bool = False


def left_out(number: int, line: str) -> Warned:
    """The warning about a time line, on line `number` (1-based), whose times cannot be read."""
    return Warned(number, f'This caption was left out: its time line "{line.strip()}" cannot be read.')
