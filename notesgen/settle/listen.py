"""The loop that follows the talk: each instruction to the function that knows its kind."""

from __future__ import annotations

from notesgen.settle.afterwards import AFTERWARDS
from notesgen.settle.bent import BENT
from notesgen.settle.played import PLAYED
from notesgen.settle.retold import tell_again
from notesgen.settle.strings import StringNames
from notesgen.settle.telling import ODD, Cue, Telling, Told
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break, Item

_ACTIONS = {**PLAYED, **BENT, **AFTERWARDS}
HEADING_AT = 2  # items of a sentence after which a heading is none
AT_ONCE = 8  # items within which a correction follows its slip


def listen(
    instructions: tuple[Instruction, ...],
    items: tuple[Item, ...],
    names: StringNames,
    drop: int | None,
    numbers: frozenset[str],
) -> Told:
    """Follows the talk.

    `drop` is the string that is tuned a fifth below the next, if any; `numbers` are the words of the talk
    that are numbers.
    """
    telling = Telling(items, names, drop, numbers)
    for said in instructions:
        if said.start < telling.not_played_until:
            telling.skipped.append(said)
        elif _is_stray(telling, said, instructions):
            telling.skipped.append(said)
        else:
            _hear(telling, said)
    return telling.told()


def _hear(telling: Telling, said: Instruction) -> None:
    if said.kind != "scope":
        _end_harmonics(telling, said)
    if said.kind in ("scope", "hammer-on", "pull-off", "bend", "tap"):
        telling.shape = ()
    match said.kind:
        case "frame":
            telling.not_played_until = _frame_end(telling, said)
        case "correction":
            _correct(telling, said)
        case "recap":
            telling.seams.append(said.start)
            telling.recaps.append(Cue(said.start, said.text("label") == "weak"))
        case "outside":
            telling.outside.append(said.start)
        case "placing":
            telling.placing_at = said.end
        case "section" if _opens_sentence(telling, said):
            telling.sections.append(said.start)
            telling.shape = ()
            telling.correcting = None
        case "same":
            telling.references.append(said)
            if said.text("string"):
                AFTERWARDS["scope"](telling, said)
                tell_again(telling, said)
        case _ if said.kind in _ACTIONS:
            _ACTIONS[said.kind](telling, said)
            if said.kind in PLAYED or said.kind in BENT:
                telling.correcting = None


def _opens_sentence(telling: Telling, said: Instruction) -> bool:
    """Whether the words stand at the start of their sentence, as headings do."""
    return said.start - telling.sentences.start(telling.sentences.of(said.start)) <= HEADING_AT


def _correct(telling: Telling, said: Instruction) -> None:
    """A correction takes back the string just named, or waits for what replaces the last note."""
    last, naming = telling.last(), telling.namings[-1] if telling.namings else None
    if naming and said.start - naming.end <= AT_ONCE and (last is None or naming.at > last.start):
        telling.namings.pop()
    elif last and said.start - last.end <= AT_ONCE:
        telling.correcting = said


def _end_harmonics(telling: Telling, said: Instruction) -> None:
    if said.kind in PLAYED and said.kind != "harmonic":
        telling.harmonic_fret = None


def _frame_end(telling: Telling, said: Instruction) -> int:
    """The item at which a frame ends: the end of its clause."""
    items = telling.items
    if said.text("extent") == "numbers":
        return _numbers_end(telling, said)
    whole_sentence = said.text("extent") == "sentence"
    for at in range(said.end, len(items)):
        if items[at].before >= Break.HARD:
            return at
        goes_on = items[at].text == "then" or [i.text for i in items[at : at + 2]] == ["and", "then"]
        if at > said.end and items[at].before >= Break.SOFT and (goes_on or not whole_sentence):
            return at
    return len(items)


def _numbers_end(telling: Telling, said: Instruction) -> int:
    """The end of the sentence and of those after it that are nothing but numbers."""
    sentences = telling.sentences
    sentence = sentences.of(said.end - 1)
    end = sentences.end(sentence)
    while end < len(telling.items):
        rest = telling.items[end : sentences.end(sentences.of(end))]
        if not all(item.text in telling.numbers for item in rest):
            return end
        end += len(rest)
    return end


def _is_stray(telling: Telling, said: Instruction, instructions: tuple[Instruction, ...]) -> bool:
    """A bare number in odd company, in a sentence without a word of guitar talk."""
    if said.doubt < ODD or said.kind != "note":
        return False
    sentence = telling.sentences.of(said.start)
    start, end = telling.sentences.start(sentence), telling.sentences.end(sentence)
    around = [i for i in instructions if start <= i.start < end and i is not said]
    return not any(i.kind in _ACTIONS and i.doubt < ODD for i in around)
