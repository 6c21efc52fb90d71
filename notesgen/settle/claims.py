"""Which of the words about instrument, tuning and capo declare the lesson's own.

"The band tunes to E flat", "I used to be in drop D", "do you tune down for this" and "you could put a capo
on the third" speak of others, of the past, ask, or suppose: they declare nothing.
"""

from __future__ import annotations

from notesgen.grammar.model import WordLists
from notesgen.settle.sentences import Sentences
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break, Item

CLAIMED = frozenset({"tuning", "capo", "instrument"})
LOWERED = "down"  # how the names of tunings end in which all strings are lowered alike

_BEFORE = 9  # items in front of the words, in their sentence, that say whose they are
_NEAR = 5  # ... that deny them, in their clause
_LATE = 0.75  # share of the talk behind which nothing is declared: by then it has been played
_OPENS = 2  # items of a question up to which who plays is named: "do you", "so is this"


def claims(
    said: tuple[Instruction, ...], items: tuple[Item, ...], words: WordLists
) -> tuple[Instruction, ...]:
    """The instructions without those that only seem to declare an instrument, a tuning or a capo."""
    sentences = Sentences(items)
    frets = first_fret(said, len(items))
    return tuple(
        one
        for one in said
        if one.kind not in CLAIMED
        or not (
            (one.kind != "instrument" and one.start > _LATE * len(items))
            or _is_of_others(one, items, words, sentences)
            or _is_denied(one, items, words)
            or _is_asked(one, items, words, sentences)
            or _is_a_thing(one, items, words)
            or _is_a_distance(one, items, words, sentences, frets)
        )
    )


def first_fret(said: tuple[Instruction, ...], end: int) -> int:
    """The item with which the first fret is told; `end` where none is."""
    return next((one.start for one in said if any(one.all("fret")) and not one.text("side")), end)


def _before(said: Instruction, items: tuple[Item, ...], sentences: Sentences) -> list[str]:
    start = max(sentences.start(sentences.of(said.start)), said.start - _BEFORE)
    return [item.text for item in items[start : said.start]]


def _clause_start(at: int, items: tuple[Item, ...], said: Instruction) -> int:
    """The item with which the clause of item `at` begins, or the farthest before the words that matters."""
    while at > max(0, said.start - _BEFORE) and items[at].before < Break.SOFT:
        at -= 1
    return at


def _is_of_others(said: Instruction, items: tuple[Item, ...], words: WordLists, sentences: Sentences) -> bool:
    """Whether it is told of somebody else, of the past, or as what might be done."""
    before = set(_before(said, items, sentences))
    clause = {item.text for item in items[_clause_start(said.start, items, said) : said.start]}
    clause = clause or _led_to(said, items, words)
    if before & set(words.elsewhere) or clause & {*words.others, *words.past, *words.history, *words.might}:
        return True
    inside = {item.text for item in items[said.start : said.end]}
    if inside & set(words.history) or (said.kind != "tuning" and clause & set(words.whose)):
        return True
    end = sentences.end(sentences.of(said.start))
    around = before | {item.text for item in items[said.start : min(end, said.end + _BEFORE)]}
    return bool(before & set(words.supposing)) and not around & set(words.following)


def _led_to(said: Instruction, items: tuple[Item, ...], words: WordLists) -> set[str]:
    """The clause in front of words that only name what it tunes to: "everybody retunes, D A D G A D"."""
    if said.start == 0 or items[said.start].before != Break.SOFT:
        return set()
    clause = {item.text for item in items[_clause_start(said.start - 1, items, said) : said.start]}
    return clause if clause & set(words.tuning_words) else set()


def _is_denied(said: Instruction, items: tuple[Item, ...], words: WordLists) -> bool:
    """Whether it is denied in its own clause: "we're not in drop D", "you don't need a bass".

    "Don't touch your bass yet" denies no bass.
    """
    inside = {item.text for item in items[said.start : said.end]}
    if said.kind == "instrument" and inside & set(words.own):
        return False
    start = max(_clause_start(said.start, items, said), said.start - _NEAR)
    return any(item.text in words.denying for item in items[start : said.start])


def _is_asked(said: Instruction, items: tuple[Item, ...], words: WordLists, sentences: Sentences) -> bool:
    """Whether it stands in a question: "do you tune down for this", "is this in drop D"."""
    first = said.start - len(_before(said, items, sentences))
    around = items[first : said.start + _OPENS]
    asked = [item.text for item in around]
    starts = [0] + [at for at, item in enumerate(around) if at and item.before >= Break.SOFT]
    whom = {*words.players, *words.pointing, *words.it}
    return any(asked[at] in words.asking and at + 1 < len(asked) and asked[at + 1] in whom for at in starts)


def _is_a_thing(said: Instruction, items: tuple[Item, ...], words: WordLists) -> bool:
    """Whether what follows makes it something else: "the bass note", "my capo on the third day"."""
    after = items[said.end].text if said.end < len(items) and items[said.end].before < Break.SOFT else ""
    return after in {"instrument": words.bass_things, "capo": words.no_frets}.get(said.kind, ())


def _is_a_distance(
    said: Instruction, items: tuple[Item, ...], words: WordLists, sentences: Sentences, frets: int
) -> bool:
    """Whether "a half step lower" speaks of notes: it stands behind the first, without a word of tuning.

    So does "the third string goes up to A".
    """
    moves = (said.text("tuning") or "").endswith(LOWERED) or bool(said.text("string") or said.all("each"))
    if said.kind != "tuning" or not moves or said.start < frets:
        return False
    sentence = sentences.of(said.start)
    spoken = {item.text for item in items[sentences.start(sentence) : sentences.end(sentence)]}
    return not spoken & set(words.tuning_words)
