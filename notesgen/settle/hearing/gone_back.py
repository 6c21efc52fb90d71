"""The way back to a string that was left, with no fret behind it: its note is struck once more.

"8 on the B, 5 on the high E, and back to the B": the 8 again.
"""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing import moved
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings
from notesgen.settle.told import Naming
from notesgen.speech.instructions import Instruction

LED_WITHIN = 3  # items in front of the string's words within which the way back is told
MEMORY = 8  # notes back to which the string's own is remembered
FRET_WITHIN = 12  # items behind the string within which a bare fret is the one to play there
AT_ONCE = 1  # ... within which another string stands beside it, or it is taken back
BY_NAME = "name"  # the slot "side" of words that go back to a letter
TELLS = ("fret", "from", "to", "letter")
GOES_ON = ("same", "together", "shift", "pattern")  # kinds of words that tell by themselves what comes there


def strikes(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Strikes the note told last on the string, where the words lead back to it; says whether they do."""
    step = left(telling, said, strings)
    if step is None:
        return False
    strike_over(telling, said, [replace(step, how="pick", bend=None, marks=())])
    telling.namings.append(Naming(said.start, said.end, strings, telling.sentences.of(said.start)))
    return True


def left(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> Step | None:
    """The note of the string to which the words lead back; None where they lead elsewhere, or to a fret."""
    if telling.relation_of(said) is not None or len(strings) != 1 or len(strings[0]) != 1:
        return None
    if not leads_back(telling, said, strings):
        return None
    recent = [step for step in moved.settled(telling.steps[-MEMORY:]) if len(step.voices) == 1]
    if not recent or recent[-1].voices[0].named == strings[0]:
        return None
    here = [step for step in recent if step.voices[0].named == strings[0]]
    return here[-1] if here and here[-1].section == len(telling.sections) else None


def leads_back(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether the words go back to a string or a note, and no further: "then we return to the B"."""
    last = telling.last()
    start = max(said.start - LED_WITHIN, last.end if last else 0)
    words = telling.said_between(start, said.end)
    back = bool(words & {*telling.words.going_back}) and not words & {*telling.words.denying}
    return back and not _goes_on(telling, said, strings)


def _goes_on(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether the string is only named for what follows: frets to play there, another string, a slip."""
    coming = telling.coming
    if coming is None:
        return False
    if coming.start - said.end <= AT_ONCE and coming.kind in ("correction", "scope"):
        return True
    near = (one for one in telling.following if one.start - said.end <= FRET_WITHIN)
    telling_more = (one for one in near if one.kind in GOES_ON or any(one.all(slot) for slot in TELLS))
    more = next(telling_more, None)
    if more is None or _goes_back(telling, more):
        return False
    return not more.all("string") or strings == telling.strings_of(more)


def _goes_back(telling: Telling, said: Instruction) -> bool:
    """Whether the words go back to a string of their own: "back to the B, and back to the G"."""
    back = telling.said_between(said.start, said.end) & {*telling.words.going_back}
    return said.kind == "recall" and said.text("side") == BY_NAME and bool(back)
