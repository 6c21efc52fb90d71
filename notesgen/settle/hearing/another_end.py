"""What was just taught with another last note: "the same again, but you end on 7 on the G"."""

from __future__ import annotations

from notesgen.settle.hearing import moved
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

SAID_OVER_WITHIN = 4  # items within which the new end is said over: "..., so 7 on the G"


def says_end_over(telling: Telling, said: Instruction) -> bool:
    """Whether nothing but the new end is told behind the reference, in its sentence."""
    coming, of = telling.coming, telling.sentences.of
    if said.whole("fret") is None or coming is None or coming.kind != "note":
        return False
    if coming.start - said.end > SAID_OVER_WITHIN or of(coming.start) != of(said.end - 1):
        return False
    behind = [one for one in telling.following if one.start >= coming.end and one.all("fret")]
    goes_on = bool(behind) and of(behind[0].start) == of(coming.start)
    return frets_of(coming, "fret") == [said.whole("fret")] and not goes_on


def with_another_end(telling: Telling, said: Instruction, run: list[Step]) -> list[Step] | None:
    """The passage with the fret of the reference at its end, on the string told with it or right behind."""
    strings = telling.strings_of(said, "other_string")
    if says_end_over(telling, said) and telling.coming is not None:
        strings = strings or telling.strings_of(telling.coming)
        telling.row_until = telling.coming.end
    return moved.ending_on(run, said.whole("fret") or 0, strings[0] if len(strings) == 1 else ())
