"""Numbers in the midst of guitar talk that no idiom reads."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from notesgen.lesson.model import Event, Flag
from notesgen.settle.hearing.kinds import HEARD
from notesgen.settle.talk import Talk
from notesgen.settle.trust.reading import may_be_fret
from notesgen.speech.chart import Edge
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break, Item
from notesgen.speech.surroundings import ODD

PRONOUN = "one"  # a number only right before the string that it is played on
AROUND = 3  # words quoted on each side


def unread_numbers(
    numbers: Sequence[Edge],
    instructions: Sequence[Instruction],
    items: Sequence[Item],
    events: Sequence[Event],
    talk: Talk,
) -> Iterator[Flag]:
    """A remark for each number that may be a fret, stands in one clause with guitar talk, and gave nothing.

    `numbers` holds one reading of each number. The remark points at the event before it, else at the first.
    """
    read = {at for said in instructions for at in range(said.start, said.end)}
    sure = [said for said in instructions if said.kind in HEARD and said.doubt < ODD]
    for edge in numbers:
        if edge.start in read or not may_be_fret(edge.value):
            continue
        after = bisect_left(sure, edge.start, key=lambda said: said.start)
        if any(_beside(edge, said, items) for said in sure[max(0, after - 1) : after + 1]):
            yield _unread(edge, events, talk)


def _beside(edge: Edge, said: Instruction, items: Sequence[Item]) -> bool:
    """Whether the number and what was understood stand in one clause."""
    if items[edge.start].text == PRONOUN and (said.kind != "scope" or said.start != edge.end):
        return False
    first, second = sorted(((edge.start, edge.end), (said.start, said.end)))
    return all(items[at].before < Break.SOFT for at in range(first[1], second[0] + 1))


def _unread(edge: Edge, events: Sequence[Event], talk: Talk) -> Flag:
    start, text = talk.start(edge.start), talk.quote(edge.start, edge.end).strip(".,;:!?")
    nearest = [event.id for event in events if event.start <= start][-1:] or [e.id for e in events[:1]]
    return Flag(
        id="",
        kind="not-understood",
        level="note",
        start=start,
        end=talk.end(edge.end),
        events=tuple(nearest),
        quote=talk.quote(edge.start, edge.end, around=AROUND),
        message=f'The draft makes nothing of "{text}" here; it may be a fret, or no part of the music.',
    )
