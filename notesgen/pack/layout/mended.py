"""The cues of a transcript with misheard words and settled slips put right, and nothing else changed."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from msgspec import Struct

from notesgen.captions.transcript import Cue, Transcript, Word
from notesgen.lesson.model import Flag, Lesson
from notesgen.pack.layout.number_words import cardinal, like
from notesgen.pack.layout.slips.find import settled
from notesgen.pack.layout.slips.said import Slip

# As the drafts word it, see notesgen.settle.doubts: The captions say "ate" for "8"; "be" for "B"; ...
_MISHEARD = re.compile(r'"([^"]+)" for "([^"]+)"')
_BARE = re.compile(r"^(\W*)(.*?)(\W*)$", re.DOTALL)
SAME_TIME = 0.002  # seconds; lessons keep thousandths


class Edit(Struct, frozen=True):
    """The word at place `at` of the transcript as it should read; "" takes it out."""

    at: int
    text: str


def mended(lesson: Lesson, transcript: Transcript) -> list[Cue]:
    """The cues, without those that only repeat what was shown."""
    edits = {edit.at: edit.text for edit in _edits(lesson, transcript)}
    by_cue = {
        cue: list(held)
        for cue, held in groupby(enumerate(transcript.words), key=lambda numbered: numbered[1].cue)
    }
    made = (
        Cue(cue.start, cue.end, _text(cue.text, by_cue.get(number, []), edits), cue.line)
        for number, cue in enumerate(transcript.cues)
    )
    return [cue for cue in made if cue.text]


def _edits(lesson: Lesson, transcript: Transcript) -> Iterator[Edit]:
    in_words = _mostly_words(lesson)
    for flag in lesson.flags:
        if flag.kind == "misheard" and (flag.level == "note" or flag.decided):
            yield from _reheard(flag, transcript.words, in_words)
    for slip in settled(lesson):
        yield from _put_right(slip, transcript.words)


def _reheard(flag: Flag, words: Sequence[Word], in_words: bool) -> Iterator[Edit]:
    """Each misheard word that stands once in the flag's stretch; where it stands twice, none is sure."""
    span = _between(words, flag.start, flag.end)
    for heard, meant in _MISHEARD.findall(flag.message):
        told = heard.lower().split()
        right = cardinal(int(meant)) if in_words and meant.isdecimal() else meant
        found = [at for at in span if [_bare(word) for word in words[at : at + len(told)]] == told]
        if len(found) == 1:
            yield from _replaced(words, found[0], len(told), right)


def _put_right(slip: Slip, words: Sequence[Word]) -> Iterator[Edit]:
    """The number of a settled slip, in the form in which it was said."""
    number = slip.number
    if number is None or slip.fret is None:
        return
    spoken = " ".join(_parts(part)[1] for part in number.text.split())
    told = spoken.lower().split()
    near = _between(words, number.start, number.start)
    found = [at for at in near if [_bare(word) for word in words[at : at + len(told)]] == told]
    if len(found) == 1:
        yield from _replaced(words, found[0], len(told), like(spoken, slip.fret))


def _between(words: Sequence[Word], start: float, end: float) -> range:
    """The places of the words that begin in a stretch of time."""
    first, last = (
        bisect_left(words, time, key=lambda word: word.start) for time in (start - SAME_TIME, end + SAME_TIME)
    )
    return range(first, last)


def _replaced(words: Sequence[Word], at: int, count: int, right: str) -> Iterator[Edit]:
    """The first word replaced, within its punctuation and with its capital; the others taken out."""
    first, last = _parts(words[at].text), _parts(words[at + count - 1].text)
    shown = right[:1].upper() + right[1:] if first[1][:1].isupper() and len(first[1]) > 1 else right
    yield Edit(at, first[0] + shown + last[2])
    yield from (Edit(place, "") for place in range(at + 1, at + count))


def _text(text: str, words: Iterable[tuple[int, Word]], edits: dict[int, str]) -> str:
    """The cue's text; its words stand in it in order, among labels and the marks of speakers."""
    shown: list[str] = []
    waiting = iter(words)
    at, word = next(waiting, (-1, None))
    for token in text.split():
        if word is not None and token == word.text:
            shown.append(edits.get(at, token))
            at, word = next(waiting, (-1, None))
        else:
            shown.append(token)
    return " ".join(token for token in shown if token)


def _mostly_words(lesson: Lesson) -> bool:
    """Whether the captions write frets as words more often than as digits."""
    frets = [number.text.isdecimal() for number in lesson.numbers if number.role == "fret"]
    return 2 * sum(frets) < len(frets)


def _bare(word: Word) -> str:
    return _parts(word.text)[1].lower()


def _parts(text: str) -> tuple[str, str, str]:
    """What stands before, the word, what stands behind."""
    found = _BARE.match(text)
    return (found[1], found[2], found[3]) if found else ("", text, "")
