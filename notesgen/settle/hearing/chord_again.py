"""A chord called by its name that was struck before, as it was fretted then: "hit that A chord again"."""

from __future__ import annotations

from notesgen.music.pitch import pitch_class
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

MEMORY = 24  # strokes back to which the chord is looked for


def strikes_chord_again(telling: Telling, said: Instruction) -> bool:
    """Strikes the chord as it was told, where it is called back by the name of its root."""
    name = said.text("chord") or ""
    behind = [item.text for item in telling.items[said.end : said.end + 1] if item.before == Break.NONE]
    spoken = {*telling.said_between(said.start, said.end), *behind}
    if len(name) != 1 or not spoken & {*telling.words.again, *telling.words.sameness}:
        return False
    recent, root = reversed(telling.steps[-MEMORY:]), pitch_class(name)
    struck = next((step for step in recent if _root(telling, step) == root), None)
    if struck is None:
        return False
    strike_over(telling, said, [struck])
    return True


def _root(telling: Telling, step: Step) -> int | None:
    """The pitch class of the lowest note of a stroke on several strings; None where it is not known."""
    certain = all(len(voice.named) == 1 and voice.fret != "x" for voice in step.voices)
    if len(step.voices) < 2 or not certain:
        return None
    return min(telling.names.pitch(voice.named[0], int(voice.fret)) for voice in step.voices) % 12
