"""The way back from the note just told to the one in front of it: "5, 7, and back"."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO
from notesgen.settle.hearing import moved
from notesgen.settle.hearing.parts import in_front
from notesgen.settle.hearing.passages import passage
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.telling import Telling
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

AT_ONCE = 1  # items between a note and the way back from it


def turn_back(telling: Telling, said: Instruction) -> None:
    """Adds the note in front of the last one, slurred as that was; nothing where more is told of the way."""
    last, words = telling.last(), telling.words
    back = telling.said_between(said.start, said.end) & {*words.going_back}
    if last is None or not back or said.start - last.end > AT_ONCE or not telling.near(said, 1):
        return
    after = telling.items[said.end : said.end + 1]
    if any(item.before == Break.NONE and item.text not in words.joining for item in after):
        return
    how = moved.TURNED.get(last.how, "pick") if last.how in LEGATO else "pick"
    told = [telling.steps[place] for place in passage(telling, whole=False)]
    strike_over(telling, said, [replace(step, how=how) for step in in_front(told)])
