"""When each word is spoken: exact where the file says so, else shared out inside the caption by length."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from msgspec import Struct

from notesgen.captions.caption import Caption
from notesgen.captions.labels import Part, parts, unmarked
from notesgen.captions.pace import natural
from notesgen.captions.transcript import Gap, Word

SILENCE = 2.5
"""Seconds without talk from which a stretch counts as a gap."""


class Run(Struct, frozen=True):
    """Talk and labels from one known time on (seconds). `exact`: the time is the file's, inside a caption."""

    start: float
    parts: tuple[Part, ...]
    exact: bool = False

    @property
    def words(self) -> list[str]:
        """The words of the talk, with the punctuation that touches them."""
        return [word for part in self.parts if not part.is_label for word in part.text.split()]


class Timed(Struct, frozen=True):
    """What a run holds, with times: its words, and the stretches that its labels name."""

    words: tuple[Word, ...]
    labels: tuple[Gap, ...]


def runs(caption: Caption) -> tuple[Run, ...]:
    """The caption cut at its inline times; one run where it has none."""
    found: list[tuple[float, list[str], bool]] = [(caption.start, [], any(row.timed for row in caption.rows))]
    for row in caption.rows:
        for number, piece in enumerate(row.pieces):
            if piece.start is not None:
                # W3C WebVTT, section 4.2.2: inline times rise and lie inside the cue. Hold them to that.
                start = min(max(piece.start, found[-1][0]), max(caption.start, caption.end))
                found.append((start, [], True))
            found[-1][1].append(piece.text if number else f" {unmarked(piece.text)}")
    joined = (Run(start, tuple(parts("".join(texts))), exact) for start, texts, exact in found)
    return tuple(run for run in joined if run.parts)


def windows(captions: Sequence[Caption], talk: Sequence[Sequence[Run]]) -> list[tuple[float, float]]:
    """From when to when each caption's talk can last (seconds), so that no two overlap.

    `captions` in order of their start, `talk` their runs. Talk ends where the next begins; captions that
    begin together share the time by their number of words.
    """
    found = [(caption.start, max(caption.start, caption.end)) for caption in captions]
    spoken = [sum(len(run.words) for run in of_caption) for of_caption in talk]
    talking = [number for number, count in enumerate(spoken) if count]
    groups = [list(group) for _, group in groupby(talking, key=lambda number: captions[number].start)]
    limits = [*(captions[group[0]].start for group in groups[1:]), float("inf")]
    # Without any talk there is a limit, but no group.
    for group, limit in zip(groups, limits, strict=False):
        start = captions[group[0]].start
        end = min(limit, *(_end(captions[number], spoken[number], limit) for number in group))
        total, before = sum(spoken[number] for number in group), 0
        for number in group:
            # In whole milliseconds, as words are: half of one may be rounded up here and down there.
            first = round(start + (end - start) * before / total, 3)
            before += spoken[number]
            found[number] = (first, round(start + (end - start) * before / total, 3))
    return found


def timed(run: Run, end: float, cue: int, paced: bool) -> Timed:
    """Times for the run's words and labels, from its start to `end` (seconds).

    Words fill the whole of it, unless something else takes part of it: labels, or silence after a word whose
    time is exact, or (`paced`) because `end` is only the start of the next caption. Then they are spoken at a
    natural pace, or faster if that does not fit, and labels share what is left.
    """
    labels = sum(part.is_label for part in run.parts)
    room = end - run.start
    length = min(natural(len(run.words)), room)
    if not (labels or paced or (run.exact and room - length >= SILENCE)):
        length = room
    letters = _letters(run.words)
    words: list[Word] = []
    gaps: list[Gap] = []
    time = run.start
    for part in run.parts:
        if part.is_label:
            following = time + (room - length) / labels
            gaps.append(Gap(time, following, part.text))
        else:
            following = time + length * _letters(part.text.split()) / letters
            words.extend(_shared(part.text.split(), time, following, cue, run.exact and not words))
        time = following
    return Timed(tuple(words), tuple(gaps))


def _letters(words: Sequence[str]) -> int:
    """How much time the words ask for, in letters: their own and the space after each."""
    return sum(len(word) + 1 for word in words)


def _shared(words: Sequence[str], start: float, end: float, cue: int, exact: bool) -> Iterator[Word]:
    """The words over the stretch, each as long as its letters ask for. `exact` says it of the first."""
    total, done, begin = _letters(words), 0, start
    for number, word in enumerate(words):
        done += _letters([word])
        finish = start + (end - start) * done / total
        yield Word(word, round(begin, 3), round(finish, 3), cue, exact and number == 0)
        begin = finish


def _end(caption: Caption, words: int, limit: float) -> float:
    """When a caption's talk ends; where its end is not after its start, as its words take."""
    if caption.end > caption.start:
        return caption.end
    return min(limit, caption.start + natural(words))
