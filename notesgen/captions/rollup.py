"""Roll-up captions: each shows the last lines of the one before and adds to them. Keep each word once.

Whether a file rolls up is decided for the whole file, by how many of its captions repeat. In other files a
repetition is the speaker's own ("eight seven nine", "eight seven nine") and stays.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from notesgen.captions.caption import Caption, Piece, Row

# The share of captions that must repeat what is on the screen for a file to count as roll-up.
_ROLLUP_SHARE = 0.5
# A caption no longer than this (seconds) says nothing new: it only moves the lines up.
_INSTANT = 0.05
# Roll-up shows two, three or four rows (CEA-608, the broadcast standard that it comes from).
_MOST_ROWS = 4
# Captions no further apart than this (seconds) follow on from one another.
_FOLLOWS = 0.25


def unrolled(captions: Sequence[Caption]) -> tuple[Caption, ...]:
    """The captions with only their new rows, one for one; the same captions where nothing rolls up."""
    if not rolls_up(captions):
        return tuple(captions)
    fresh = [_new_rows(former, caption) for former, caption in pairwise(captions)]
    return (captions[0], *(_with(c, rows) for c, rows in zip(captions[1:], fresh, strict=True)))


def rolls_up(captions: Sequence[Caption]) -> bool:
    """Whether the file is made of roll-up captions."""
    repeats = sum(_adds_rows(former, caption) for former, caption in pairwise(captions))
    grown = sum(_adds_words(former, caption) for former, caption in pairwise(captions))
    # One row that goes on from the one before may be the speaker starting again.
    repeats += grown if grown > 1 else 0
    return len(captions) > 1 and repeats >= _ROLLUP_SHARE * (len(captions) - 1)


def _adds_rows(former: Caption, caption: Caption) -> bool:
    """A caption that shows old rows above new ones, or only old ones in no time; a plain repeat is speech."""
    shown, rows = _shown(former), _shown(caption)
    if not _follows(former, caption):
        return False
    if _is_instant(caption):
        return _repeated(shown, rows, len(rows)) == len(rows) > 0
    return _repeated(shown, rows, len(rows) - 1) > 0


def _adds_words(former: Caption, caption: Caption) -> bool:
    """A caption that shows the last row again with more words at its end."""
    return _follows(former, caption) and _grown(_shown(former), _shown(caption)) is not None


def _new_rows(former: Caption, caption: Caption) -> tuple[Row, ...]:
    """The rows, or the end of a row, that the former caption did not show."""
    shown, rows = _shown(former), _shown(caption)
    every_row_repeats = 0 < len(rows) == _repeated(shown, rows, len(rows))
    if _is_instant(caption) and every_row_repeats:
        return ()
    if rows and not caption.rows[0].text:
        # A blank top row: what was shown before has gone, so all is new.
        return rows
    # A row with times inside is being spoken, and so is the last row of several: neither is a repeat.
    old = next((number for number, row in enumerate(rows) if row.timed), len(rows))
    repeated = _repeated(shown, rows, min(old, len(rows) - 1))
    if repeated or not _follows(former, caption):
        return rows[repeated:]
    if every_row_repeats and old == len(rows):
        return ()
    grown = _grown(shown, rows)
    return rows if grown is None else grown


def _repeated(shown: Sequence[Row], rows: Sequence[Row], most: int) -> int:
    """How many of the top rows, at most `most`, are the bottom rows of what was shown."""
    for count in range(min(most, len(shown), _MOST_ROWS), 0, -1):
        if [row.text for row in shown[-count:]] == [row.text for row in rows[:count]]:
            return count
    return 0


def _grown(shown: Sequence[Row], rows: Sequence[Row]) -> tuple[Row, ...] | None:
    """The new words where a caption shows the last row again with more words at its end; else None."""
    if not shown or not rows or rows[0].timed:
        return None
    before, now = shown[-1].text.split(), rows[0].text.split()
    if len(now) <= len(before) or now[: len(before)] != before:
        return None
    return (Row(rows[0].line, (Piece(" ".join(now[len(before) :])),)), *rows[1:])


def _shown(caption: Caption) -> tuple[Row, ...]:
    return tuple(row for row in caption.rows if row.text)


def _is_instant(caption: Caption) -> bool:
    return caption.end - caption.start <= _INSTANT


def _follows(former: Caption, caption: Caption) -> bool:
    return caption.start - former.end <= _FOLLOWS


def _with(caption: Caption, rows: tuple[Row, ...]) -> Caption:
    return Caption(caption.start, caption.end, caption.line, rows)
