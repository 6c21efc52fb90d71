"""Words that tell of notes that they are played as they were before: "it starts like line one"."""

from __future__ import annotations

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.told import Cue
from notesgen.speech.instructions import Instruction

BEHIND = "behind"  # the slot "label" of words that stand behind their notes


def play_again(telling: Telling, said: Instruction) -> None:
    """What comes, or what the words stand behind, is played again, not only told."""
    behind = said.text("label") == BEHIND
    telling.anew.append(Cue(said.start, behind))
    if not behind:
        telling.seams.append(said.start)
