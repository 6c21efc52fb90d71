"""Open strings beside the one just struck, told by how many they are: "and then the two open ones"."""

from __future__ import annotations

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Voice
from notesgen.settle.told import read_count
from notesgen.speech.instructions import Instruction

OTHERS = "others"  # the slot "side" of open strings that are counted, not named
NEAR = 1  # sentences behind the note beside which they lie


def others_open(telling: Telling, said: Instruction) -> None:
    """The next strings on the thin side of the note just told, or all that are left, one after the other."""
    named = telling.strings_of(said)
    for string in named or _beside(telling, said):
        telling.add(said, [Voice(0, string)])


def _beside(telling: Telling, said: Instruction) -> list[tuple[int, ...]]:
    last, count = telling.last(), read_count(said.text("count"))[0]
    if last is None or not telling.near(said, NEAR):
        return []
    thinnest = min((voice.named[0] for voice in last.voices if voice.named), default=0)
    if count < thinnest:
        return [(thinnest - over,) for over in range(1, count + 1)]
    told = [step for step in telling.steps if step.sentence >= last.sentence - NEAR]
    struck = {string for step in told for voice in step.voices for string in voice.named}
    left = [string for string in range(telling.names.count, 0, -1) if string not in struck]
    return [(string,) for string in left] if len(left) == count else []
