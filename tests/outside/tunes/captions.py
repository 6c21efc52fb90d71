"""A talk as caption files: four kinds, with times as a recording would give them.

Formats: W3C WebVTT (cues, inline times); SubRip and plain transcripts by common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby, pairwise

from msgspec import Struct

from tests.outside.tunes.wording import Talk

SECONDS_A_WORD = 0.37
BETWEEN_SENTENCES = 0.35
LONGEST_ROW = 44  # characters
WORDS_A_ROW = 7
SECONDS_A_BLOCK = 9.0
SILENCE = 2.0


class Word(Struct, frozen=True):
    """A word as said, with its times in seconds and the number of its line in the talk."""

    text: str
    start: float
    end: float
    line: int


Row = Sequence[Word]


def spoken(talk: Talk) -> tuple[Word, ...]:
    """The words of a talk with their times: longer words take longer, playing is a pause."""
    words: list[Word] = []
    time = 0.8
    for number, line in enumerate(talk.lines):
        for text in line.text.split():
            length = SECONDS_A_WORD * (0.6 + 0.08 * len(text))
            words.append(Word(text, round(time, 3), round(time + length, 3), number))
            time += length
        time += BETWEEN_SENTENCES + line.pause
    return tuple(words)


def punctuated_webvtt(words: Row) -> bytes:
    """Captions typed with care: a sentence begins a caption, a row is no longer than people read at once."""
    sentences = (list(sentence) for _, sentence in groupby(words, lambda word: word.line))
    rows = [row for sentence in sentences for row in _cut(sentence, _too_long)]
    cues = [f"{_clock(row[0].start)} --> {_clock(row[-1].end)}\n{_said(row)}\n" for row in rows]
    return ("WEBVTT\n\n" + "\n".join(cues)).encode()


def rollup_webvtt(words: Row) -> bytes:
    """Automatic captions: lower case, no stops, two rows that move up, a time for each word."""
    cues, above = ["WEBVTT\nKind: captions\nLanguage: en\n"], " "
    for row, following in _with_next(_cut(_plain(words, capitals=False), _enough)):
        end = min(following, row[-1].end + 2.0)
        rest = "".join(f"<{_clock(word.start)}><c> {word.text}</c>" for word in row[1:])
        cues.append(f"{_clock(row[0].start)} --> {_clock(end)}\n{above}\n{row[0].text}{rest}\n")
        above = _said(row)
        cues.append(f"{_clock(end)} --> {_clock(end + 0.01)}\n{above}\n \n")
    return "\n".join(cues).encode()


def plain_text(words: Row) -> bytes:
    """A transcript with a time to the second at the head of each line."""
    sentences = [list(sentence) for _, sentence in groupby(words, lambda word: word.line)]
    lines: list[str] = []
    begun, ended = float("-inf"), 0.0
    for sentence in sentences:
        start = sentence[0].start
        if start - begun > SECONDS_A_BLOCK or start - ended > SILENCE:
            lines.append(f"{int(start) // 60}:{int(start) % 60:02} {_said(sentence)}")
            begun = start
        else:
            lines[-1] += " " + _said(sentence)
        ended = sentence[-1].end
    return ("\n".join(lines) + "\n").encode()


def bare_srt(words: Row) -> bytes:
    """Subtitles without stops, cut anywhere; letters that are names keep their capitals."""
    rows = _cut(_plain(words, capitals=True), _enough)
    cues = [
        f"{number}\n{_comma_clock(row[0].start)} --> {_comma_clock(row[-1].end)}\n{_said(row)}\n"
        for number, row in enumerate(rows, start=1)
    ]
    return "\n".join(cues).encode()


KINDS: dict[str, tuple[str, Callable[[Row], bytes]]] = {
    "punctuated": ("tune.vtt", punctuated_webvtt),
    "roll-up": ("tune.vtt", rollup_webvtt),
    "text": ("tune.txt", plain_text),
    "bare srt": ("tune.srt", bare_srt),
}
"""Kind of captions: a file name and the writer."""


def _plain(words: Row, *, capitals: bool) -> list[Word]:
    """The words without stops and hyphens, in lower case but for names of one letter."""
    found: list[Word] = []
    for word in words:
        parts = re.sub(r"[.,:;!?]", "", word.text).replace("-", " ").split()
        length = (word.end - word.start) / max(len(parts), 1)
        for number, part in enumerate(parts):
            text = part if capitals and len(part) == 1 and word.text not in ("A",) else part.lower()
            start = round(word.start + number * length, 3)
            found.append(Word(text, start, round(start + length, 3), word.line))
    return found


def _cut(words: Row, full: Callable[[Row, Word], bool]) -> Iterator[Row]:
    """Rows that end where they are full or a silence follows."""
    row: list[Word] = []
    for word in words:
        if row and (full(row, word) or word.start - row[-1].end > SILENCE):
            yield row
            row = []
        row.append(word)
    if row:
        yield row


def _too_long(row: Row, word: Word) -> bool:
    return len(_said([*row, word])) > LONGEST_ROW


def _enough(row: Row, word: Word) -> bool:
    return len(row) >= WORDS_A_ROW - word.line % 2


def _with_next(rows: Iterator[Row]) -> Iterator[tuple[Row, float]]:
    """Each row with the time at which the next begins."""
    for row, following in pairwise([*rows, None]):
        if row is not None:
            yield row, following[0].start if following else row[-1].end


def _said(row: Row) -> str:
    return " ".join(word.text for word in row)


def _clock(seconds: float) -> str:
    thousandths = round(seconds * 1000)
    return f"00:{thousandths // 60000:02}:{thousandths // 1000 % 60:02}.{thousandths % 1000:03}"


def _comma_clock(seconds: float) -> str:
    return _clock(seconds).replace(".", ",")
