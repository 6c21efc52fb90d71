"""How far words reach that say that nothing is played: "don't play ...", "it should sound like ..."."""

from __future__ import annotations

from notesgen.settle.hearing.telling import Telling
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

NUMBERS = "numbers"  # the slot "extent" of words for the numbers behind them: "the fingers are 1, 3, 4"
COMPARED = 16  # items within which what was played before is set against what comes


def frame_end(telling: Telling, said: Instruction) -> int:
    """The item at which a frame ends: the end of its clause, of its sentence, or of the numbers after it."""
    extent = said.text("extent")
    if extent == NUMBERS:
        return _numbers_end(telling, said)
    if extent == "until now":
        return _now(telling, said)
    for at in range(said.end, len(telling.items)):
        before = telling.items[at].before
        if before >= Break.HARD:
            return at
        if at == said.end and said.kind == "correction":
            continue  # the comma in "sorry, the 6" parts nothing
        soft = before >= Break.SOFT and not (_joins_number(telling, at) or _renames(telling, said.start, at))
        spoken_on = extent == "sentence" and (at == said.end or _has_told(telling, said.end, at))
        if soft and (not spoken_on or _goes_on(telling, at)):
            return at
        if _turns_to_listener(telling, said.end, at):
            return at
    return len(telling.items)


def _now(telling: Telling, said: Instruction) -> int:
    """The item in the sentence from which it is told how it goes now: "you now have", "here it's".

    Where it is not told, nothing is set against what was played before.
    """
    end = min(telling.sentences.end(telling.sentences.of(said.start)), said.end + COMPARED)
    rest = range(said.end, end)
    return next((at for at in rest if telling.items[at].text in telling.words.now), said.end)


def _has_told(telling: Telling, start: int, at: int) -> bool:
    """Whether a number or a string was named in these words, so that more of them may follow."""
    return bool(telling.said_between(start, at) & {*telling.numbers, *telling.words.string})


def _turns_to_listener(telling: Telling, start: int, at: int) -> bool:
    """Whether "you play", "I take" begins here, after a number or a string that is not to be played."""
    who, verb = telling.items[at : at + 1], telling.items[at + 1 : at + 2]
    return (
        all(item.text in telling.words.players for item in who)
        and any(item.text in telling.words.playing for item in verb)
        and _has_told(telling, start, at)
    )


def _joins_number(telling: Telling, at: int) -> bool:
    """Whether "and the 5" begins here, in words without punctuation: one more of what is not played."""
    if telling.items[at].text not in telling.words.joining:
        return False
    after = [item.text for item in telling.items[at + 1 : at + 3]]
    return any(text in telling.numbers for text in after) and after[0] not in telling.words.moving_on


def _renames(telling: Telling, start: int, at: int) -> bool:
    """Whether what is not played is only told more closely: "you could do a third note, the 12, but"."""
    after = [item.text for item in telling.items[at : at + 2]]
    ends = at + 2 >= len(telling.items) or telling.items[at + 2].before >= Break.SOFT
    named = bool(telling.said_between(start, at) & {*telling.words.read_out, *telling.words.string})
    return named and ends and after[0] in telling.words.article and after[-1] in telling.numbers


def _goes_on(telling: Telling, at: int) -> bool:
    """Whether the telling itself goes on here: "then", "and then", "and you"."""
    joined = telling.items[at].text in telling.words.joining
    following = telling.items[at + joined : at + joined + 1]
    onward = {*telling.words.moving_on, *(telling.words.players if joined else ())}
    return any(item.text in onward for item in following)


def _numbers_end(telling: Telling, said: Instruction) -> int:
    """The end of the sentence and of those after it that are nothing but numbers.

    Numbers of fingers go on behind "then" as well.
    """
    sentences, fingers = telling.sentences, {*telling.words.finger_numbers, *telling.words.moving_on}
    end = sentences.end(sentences.of(said.end - 1))
    while end < len(telling.items):
        rest = telling.items[end : sentences.end(sentences.of(end))]
        counted = all(item.text in telling.numbers for item in rest)
        if not counted and not all(item.text in fingers for item in rest):
            return end
        end += len(rest)
    return end
