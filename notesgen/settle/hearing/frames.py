"""How far words reach that say that nothing is played: "don't play ...", "it should sound like ..."."""

from __future__ import annotations

from notesgen.settle.hearing.telling import Telling
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break


def frame_end(telling: Telling, said: Instruction) -> int:
    """The item at which a frame ends: the end of its clause, of its sentence, or of the numbers after it."""
    extent = said.text("extent")
    if extent == "numbers":
        return _numbers_end(telling, said)
    for at in range(said.end, len(telling.items)):
        before = telling.items[at].before
        if before >= Break.HARD:
            return at
        if at > said.end and before >= Break.SOFT and (extent != "sentence" or _goes_on(telling, at)):
            return at
    return len(telling.items)


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
