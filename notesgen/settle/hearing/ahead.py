"""Strokes counted before their note: "then twice the fifth fret on the A"."""

from __future__ import annotations

from notesgen.settle.hearing.counts import strike_again
from notesgen.settle.hearing.damped import SUNG
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.told import read_count
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

LINK = 1  # items between a count and its note: "twice on the 7"
COUNTED_AHEAD = frozenset({"note", "pair", "shape", "chord", "recall"})


def leads(telling: Telling, said: Instruction) -> bool:
    """Whether a count belongs to the note to come: it opens a clause, and the note follows at once."""
    coming, last = telling.coming, telling.last()
    if coming is None or coming.kind not in COUNTED_AHEAD or coming.text("count"):
        return False
    if not 0 <= coming.start - said.end <= LINK or telling.items[coming.start].text in _links(telling):
        return False
    between = telling.items[said.end : coming.start + 1]
    if any(item.before > Break.NONE for item in between):
        return _points_ahead(telling, said, coming)
    lead = telling.said_between(said.start, slot_of(said, "count").start)
    if lead - _links(telling) and said.text("side") != SUNG:
        return False
    begins = last is None or telling.items[said.start].before > Break.NONE or bool(lead)
    return begins or said.start > max(last.end if last else 0, telling.note_until)


def _points_ahead(telling: Telling, said: Instruction, coming: Instruction) -> bool:
    """Whether "three of them: open D" counts what stands behind the pause, as it opens its sentence."""
    opens = telling.sentences.start(telling.sentences.of(said.start)) == said.start
    counted = bool(telling.said_between(said.start, said.end) & set(telling.words.struck))
    at_once = coming.start == said.end and telling.items[coming.start].before == Break.SOFT
    return opens and counted and at_once and bool(coming.all("string"))


def strike_ahead(telling: Telling, told: int) -> None:
    """The one note told since step `told` is struck as often as was counted; of several, who knows."""
    said, telling.counted_ahead = telling.counted_ahead, None
    if said is None or len(telling.steps) == told:
        return
    if len(telling.steps) > told + 1:
        telling.unwritten.append(said)
        return
    times, unsure = read_count(said.text("count"))
    strike_again(telling, times, unsure)


def _links(telling: Telling) -> set[str]:
    return {*telling.words.joining, *telling.words.turning_to}
