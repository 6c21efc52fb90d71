"""Notes called by their letter alone: the one just told, or one told before under that name."""

from __future__ import annotations

from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

MEMORY = 60  # notes back to which a name reaches
NAMED_WITHIN = 3  # items behind a note within which its name is told
LONGEST = 2  # characters of a note's name: "Bb"


def letter_of(telling: Telling, said: Instruction) -> str | None:
    """The letter by which a string is named, where it may as well be a note: "the A", not "the A string"."""
    if not said.all("string") or said.all("other_string"):
        return None
    slot = slot_of(said, "string")
    letter = str(slot.value).rpartition(" ")[2]
    spelled = telling.said_between(slot.start, slot.end) & set(telling.words.string)
    return letter if letter[:1].isalpha() and len(letter) <= LONGEST and not spelled else None


def names_last(telling: Telling, said: Instruction) -> bool:
    """Whether the letter is the name of the note just told, which lies on another string."""
    last, letter = telling.last(), letter_of(telling, said)
    if last is None or letter is None or len(last.voices) != 1 or last.frets[0] == "x" or said.kind == "same":
        return False
    named = last.voices[0].named
    own = {string for strings in telling.strings_of(said) for string in strings}
    if len(named) != 1 or named[0] in own:
        return False
    if not telling.names.gives(letter, named[0], int(last.frets[0])):
        return False
    opens = telling.items[said.start].text in telling.words.article and said.start - last.end <= NAMED_WITHIN
    return opens or bool(telling.said_between(said.start, said.end) & set(telling.words.pointing))


def strike_named(telling: Telling, said: Instruction) -> bool:
    """Strikes a note once more that was called by that letter before, the nearest; False where none was."""
    letter = letter_of(telling, said)
    called = [step for step in reversed(telling.steps[-MEMORY:]) if letter and step.letter == letter]
    alone = [step for step in called if len(step.voices) == 1]
    if not alone:
        return False
    step = min(alone, key=lambda one: _strings_away(telling, one))
    telling.add(said, step.voices, origin="derived", letter=step.letter)
    return True


def _strings_away(telling: Telling, step: Step) -> int:
    """How many strings lie between the note and the one told last; 0 where either is not known."""
    here, there = telling.last_strings(), step.voices[0].named
    return abs(here[-1] - there[0]) if here and there else 0
