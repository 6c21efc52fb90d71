"""The words of the captions around a doubt, with carets under the doubtful ones."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import dropwhile

from notesgen.captions.transcript import Transcript, Word

AROUND = 5  # words shown on either side
LONGEST = 3  # lines; a longer stretch is cut short
NEAR = 0.0015  # seconds: times in a lesson are rounded to milliseconds


def excerpt(transcript: Transcript, start: float, end: float, width: int) -> list[str]:
    """Lines of words and, below each, carets under those spoken from `start` to `end` (seconds).

    Empty when nothing is said at that time.
    """
    words = transcript.words
    marked = [i for i, word in enumerate(words) if _spoken_between(word, start, end)]
    if not marked:
        return []
    first, last = max(0, marked[0] - AROUND), min(len(words), marked[-1] + 1 + AROUND)
    shown = [(words[i].text, marked[0] <= i <= marked[-1]) for i in range(first, last)]
    rows = list(dropwhile(_unmarked, _rows(shown, width)))
    lines = [line for row in rows[:LONGEST] for line in _drawn(row) if line]
    return [*lines, "..."] if len(rows) > LONGEST else lines


def caption_line(transcript: Transcript, time: float) -> int | None:
    """The line of the caption file on which the cue stands that is heard at `time` (seconds)."""
    begun = [cue.line for cue in transcript.cues if cue.start <= time + NEAR]
    return begun[-1] if begun else None


def _unmarked(row: Sequence[tuple[str, bool]]) -> bool:
    return not any(marked for _, marked in row)


def _spoken_between(word: Word, start: float, end: float) -> bool:
    if end - start < NEAR:
        return word.start <= start + NEAR and word.end > start + NEAR
    return word.end > start + NEAR and word.start < end - NEAR


def _rows(shown: Sequence[tuple[str, bool]], width: int) -> Iterator[list[tuple[str, bool]]]:
    """The words in rows of at most `width` characters."""
    row: list[tuple[str, bool]] = []
    length = 0
    for text, marked in shown:
        if row and length + len(text) > width:
            yield row
            row, length = [], 0
        row.append((text, marked))
        length += len(text) + 1
    yield row


def _drawn(row: Sequence[tuple[str, bool]]) -> tuple[str, str]:
    """A row and the carets below it; neighbours that are both marked share one line of carets."""
    below, was_marked = "", False
    for text, marked in row:
        below += ("^" if was_marked and marked else " ") if below else ""
        below += ("^" if marked else " ") * _cells(text)
        was_marked = marked
    return " ".join(text for text, _ in row), below.rstrip()


def _cells(text: str) -> int:
    """Columns that the text takes up on a terminal."""
    from rich.cells import cell_len

    return cell_len(text)
