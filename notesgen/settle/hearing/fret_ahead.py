"""A fret told before the strings that are struck at it: "seventh fret, play the D and the G together"."""

from __future__ import annotations

from notesgen.settle.hearing.slots import TELLS
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Voice
from notesgen.speech.instructions import Instruction

CLOSE = 3  # items between the fret and its strings: "seventh fret, and you play the D and the G"


def lies_on_strings(telling: Telling, said: Instruction) -> bool:
    """Whether the strings are those of the bare fret told right before; puts it on all of them."""
    last, strings = telling.last(), telling.strings_of(said)
    if last is None or not _is_lone_fret(telling, last) or not telling.near(said, 1):
        return False
    certain = len(strings) > 1 and all(len(one) == 1 for one in strings) and len({*strings}) == len(strings)
    if not certain or said.start - last.end > CLOSE or _has_frets(telling, said):
        return False
    telling.change_last(voices=tuple(Voice(last.frets[0], one) for one in strings), end=said.end)
    telling.note_until = max(telling.note_until, said.end)
    return True


def _is_lone_fret(telling: Telling, last: Step) -> bool:
    """Whether the note is a fret without a string, and the only one of its sentence."""
    bare = len(last.voices) == 1 and not last.voices[0].named and last.how in ("pick", "harmonic")
    return bare and telling.trailing() == 1 and not last.again


def _has_frets(telling: Telling, said: Instruction) -> bool:
    """Whether the strings have frets of their own, told next: "the D and the G together, five and seven"."""
    coming = telling.coming
    if coming is None or coming.all("string"):
        return False
    if telling.sentences.of(coming.start) != telling.sentences.of(said.start):
        return False
    turned = telling.said_between(said.end, coming.start + 1) & {*telling.words.moving_on}
    return any(coming.all(slot) for slot in TELLS) and not turned
