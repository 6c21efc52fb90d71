"""Transcript to items: the tokens that carry meaning, each with its time and the break before it.

Punctuation becomes breaks. Fillers ("um", "you know") and stutters ("on the, on the") are dropped, so that
no wording has to allow for them. Captions without punctuation get their breaks from pauses.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from enum import IntEnum

from msgspec import Struct
from msgspec.structs import replace

from notesgen.captions.transcript import Transcript
from notesgen.captions.transcript import Word as SpokenWord
from notesgen.grammar.model import WordLists
from notesgen.grammar.tokens import tokens

SOFT_PAUSE = 0.35  # seconds without a word that count as a comma, where the captions have no punctuation
HARD_PAUSE = 0.65  # ... and as the end of a sentence
STUTTERED = 3  # words at most that are begun twice: "and on the, and on the B"
PUNCTUATED = 0.02  # share of words that end a sentence, above which the captions' punctuation is trusted

_SOFT_MARKS = frozenset({",", ";", ":", "...", "..", "(", ")", '"'})
_HARD_MARKS = frozenset({".", "!", "?"})


class Break(IntEnum):
    """What stands between an item and the one before it."""

    NONE = 0
    SOFT = 1
    HARD = 2
    GAP = 3


class Item(Struct, frozen=True):
    """One meaningful token. `word` indexes `Transcript.words`; times in seconds.

    `capital` tells that the captions write it with one, `hesitant` that the speaker stopped before it: "er".
    """

    text: str
    word: int
    start: float
    end: float
    before: Break
    capital: bool = False
    hesitant: bool = False

    @property
    def is_name(self) -> bool:
        """Whether it is written with a capital that no sentence's beginning explains."""
        return self.capital and self.before < Break.HARD


def items(transcript: Transcript, words: WordLists) -> tuple[Item, ...]:
    """All items of the talk, in order. `words` names the fillers and the words that open a clause."""
    punctuated = _is_punctuated(transcript)
    kept = _without_fillers(tuple(_cut(transcript, punctuated)), words.fillers, {*words.hesitations})
    kept = _without_stutters(kept, frozenset(words.stuttered), frozenset(words.hammering))
    kept = _without_interjections(kept, frozenset(words.interjections))
    if punctuated:
        return _with_names_joined(kept, frozenset(words.fact_names), frozenset(words.naming_along))
    joins = tuple(tuple(join.split()) for join in words.sentence_joins)
    return _with_clauses(kept, frozenset(words.clause_openers), frozenset(words.sentence_openers), joins)


def _with_names_joined(
    all_items: tuple[Item, ...], names: frozenset[str], along: frozenset[str]
) -> tuple[Item, ...]:
    """The items with a sentence that only names a thing joined to the one behind: "Capo. Third fret." """
    joined, start = list(all_items), 0
    for at, item in enumerate(all_items):
        if item.before < Break.HARD:
            continue
        said = {one.text for one in all_items[start:at]}
        if item.before == Break.HARD and len(said & names) == 1 and said <= names | along:
            joined[at] = _with_break(item, Break.SOFT)
        start = at
    return tuple(joined)


def _runs_on(all_items: tuple[Item, ...], at: int, joins: tuple[tuple[str, ...], ...]) -> bool:
    """Whether the opener stands in words that go on with the sentence: "so it sounds", "finger off so"."""
    opener = all_items[at].text
    starts = ((join, at - join.index(opener)) for join in joins if opener in join)
    return any(
        start >= 0 and tuple(i.text for i in all_items[start : start + len(join)]) == join
        for join, start in starts
    )


def _with_clauses(
    all_items: tuple[Item, ...],
    clause: frozenset[str],
    sentence: frozenset[str],
    joins: tuple[tuple[str, ...], ...],
) -> tuple[Item, ...]:
    """Where nothing is punctuated, words that open a clause or a sentence stand for the break before them."""
    broken, openers = [], clause | sentence
    for at, item in enumerate(all_items):
        before = item.before
        opens = item.text in openers and (at == 0 or all_items[at - 1].text not in clause)
        if opens and not _runs_on(all_items, at, joins):
            before = max(before, Break.HARD if item.text in sentence else Break.SOFT)
        broken.append(_with_break(item, before))
    return tuple(broken)


def _cut(transcript: Transcript, punctuated: bool) -> Iterator[Item]:
    gap_starts = [gap.start for gap in transcript.gaps]
    last: SpokenWord | None = None
    pending = Break.HARD
    for index, word in enumerate(transcript.words):
        pending = max(pending, _silence(last, word, gap_starts, punctuated))
        for position, text in enumerate(tokens(word.text)):
            if text in _SOFT_MARKS:
                pending = max(pending, Break.SOFT)
            elif text in _HARD_MARKS:
                pending = max(pending, Break.HARD)
            elif any(c.isalnum() or c in "#%$" for c in text):
                capital = position == 0 and word.text.lstrip("\"'(")[:1].isupper()
                yield Item(text, index, word.start, word.end, pending, capital)
                pending = Break.NONE
        last = word


def _is_punctuated(transcript: Transcript) -> bool:
    ends = sum(word.text.rstrip("\"')")[-1:] in ".!?" for word in transcript.words)
    return ends > PUNCTUATED * len(transcript.words)


def _silence(last: SpokenWord | None, word: SpokenWord, gap_starts: list[float], punctuated: bool) -> Break:
    """The break that a pause before `word` stands for."""
    if last is None:
        return Break.HARD
    if bisect_right(gap_starts, word.start + 0.01) > bisect_right(gap_starts, last.start + 0.01):
        return Break.GAP
    pause = word.start - last.end
    if not punctuated and pause >= HARD_PAUSE:
        return Break.HARD
    if pause >= SOFT_PAUSE:
        return Break.SOFT
    return Break.NONE


def _without_fillers(
    all_items: tuple[Item, ...], fillers: tuple[str, ...], hesitations: set[str]
) -> tuple[Item, ...]:
    """Drops filler words and phrases; a break before a filler moves on to the item after it."""
    by_first: dict[str, list[tuple[str, ...]]] = {}
    for filler in fillers:
        cut = tuple(t for chunk in filler.split() for t in tokens(chunk))
        by_first.setdefault(cut[0], []).append(cut)
    kept: list[Item] = []
    at, carried, hesitant = 0, Break.NONE, False
    while at < len(all_items):
        item = all_items[at]
        length = _filler_length(all_items, at, by_first.get(item.text, []))
        if length:
            carried = max(carried, *(i.before for i in all_items[at : at + length]))
            hesitant = hesitant or item.text in hesitations
            at += length
            continue
        before = max(item.before, carried)
        kept.append(
            replace(_with_break(item, before), hesitant=True) if hesitant else _with_break(item, before)
        )
        carried, hesitant = Break.NONE, False
        at += 1
    return tuple(kept)


def _without_interjections(all_items: tuple[Item, ...], interjections: frozenset[str]) -> tuple[Item, ...]:
    """Drops sentences that are nothing but approval, "Nice.", "All right.": they part nothing."""
    kept: list[Item] = []
    begun = 0  # how much was kept when the sentence began
    for item in all_items:
        before = item.before
        if before >= Break.HARD:
            if begun and all(one.text in interjections for one in kept[begun:]):
                before = max([before, *(one.before for one in kept[begun:])])
                del kept[begun:]
            begun = len(kept)
        kept.append(_with_break(item, before))
    return tuple(kept)


def _without_stutters(
    all_items: tuple[Item, ...], stuttered: frozenset[str], hammering: frozenset[str]
) -> tuple[Item, ...]:
    """Drops small words that are said over at once: "on the, on the G"; none in "hammer on on the G"."""
    kept: list[Item] = []
    for item in all_items:
        kept.append(item)
        if length := _begun_twice(kept, stuttered, hammering):
            begun, again = kept[-2 * length], kept[-length:]
            kept[-2 * length :] = [_with_break(again[0], begun.before), *again[1:]]
    return tuple(kept)


def _begun_twice(kept: list[Item], stuttered: frozenset[str], hammering: frozenset[str]) -> int:
    """How many of the last items only say over those before them; 0 when none."""
    for length in range(1, STUTTERED + 1):
        begun, again = kept[-2 * length : -length], kept[-length:]
        ahead = kept[-2 * length - 1 : -2 * length]
        if len(begun) < length or any(item.text in hammering for item in ahead):
            continue
        if all(
            one.text == two.text and one.text in stuttered and two.before < Break.HARD
            for one, two in zip(begun, again, strict=True)
        ):
            return length
    return 0


def _filler_length(all_items: tuple[Item, ...], at: int, candidates: list[tuple[str, ...]]) -> int:
    """How many items from `at` are one filler; 0 when none."""
    fits = [
        len(filler)
        for filler in candidates
        if tuple(i.text for i in all_items[at : at + len(filler)]) == filler
        and all(i.before < Break.HARD for i in all_items[at + 1 : at + len(filler)])
    ]
    return max(fits, default=0)


def _with_break(item: Item, before: Break) -> Item:
    return item if before == item.before else replace(item, before=before)
