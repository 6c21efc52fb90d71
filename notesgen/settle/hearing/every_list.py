"""A technique told behind the notes of several strings: "A string 5, 7. D string 5, 7. All hammered"."""

from __future__ import annotations

from itertools import pairwise
from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, How
from notesgen.settle.hearing import announced
from notesgen.settle.hearing.announced import are_apart, one_list
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step, Strings
from notesgen.speech.instructions import Instruction

NEAR = 2  # sentences within which words about all lists reach the last of them
PAIR = 2  # lists, of two notes each, that "both" speaks of
BEHIND = 2  # items between a string and the words about its notes: "on the B they are ..."


def slur_every_list(telling: Telling, said: Instruction, how: str) -> bool:
    """Joins the notes of all lists just told, each on a string of its own; False where there are not two."""
    lists = _lists(telling, said, how)
    if _speaks_of_two(telling, said):
        lists = lists[:PAIR] if all(len(one) == PAIR for one in lists[:PAIR]) else []
    if len(lists) < PAIR:
        return False
    for places in lists:
        for before, place in pairwise(places):
            way = announced.way(how, telling.steps[before], telling.steps[place])
            telling.steps[place] = replace(telling.steps[place], how=cast(How, way), joined=True)
    return True


def of_named_string(telling: Telling, said: Instruction) -> list[int] | None:
    """The places of the notes on the string that was named for it right before: "on the A I hammer those".

    None where no string was named so, or nothing was told on it.
    """
    naming = telling.named_since()
    if naming is None or len(naming.strings) != 1 or not 0 <= said.start - naming.end <= BEHIND:
        return None
    places = range(max(0, len(telling.steps) - 2 * LOOK_BACK), len(telling.steps))
    told = [place for place in places if _is_on(telling.steps[place], naming.strings[0])]
    return told if told and telling.near(said, NEAR) else None


def _is_on(step: Step, string: Strings) -> bool:
    return len(step.voices) == 1 and bool({*(step.voices[0].named or step.before)} & {*string})


def _lists(telling: Telling, said: Instruction, how: str) -> list[list[int]]:
    """The places of all lists just told that can be played so throughout, the last one first."""
    lists: list[list[int]] = []
    sentence = telling.sentences.of(said.start)
    end = len(telling.steps)
    while places := _list_before(telling, how, end):
        after = telling.steps[end].sentence if end < len(telling.steps) else sentence
        if after - telling.steps[places[-1]].sentence > 1:
            break
        lists.append(places)
        end = places[0]
    return lists


def _list_before(telling: Telling, how: str, end: int) -> list[int]:
    """The places of the list that ends in front of place `end`; none where it cannot be played so."""
    places = [end - 1] if end else []
    while places and places[0] and not _begins(telling, places[0]):
        before, step = telling.steps[places[0] - 1 : places[0] + 1]
        if step.how not in ("pick", *LEGATO) or step.again or announced.way(how, before, step) is None:
            return []
        places.insert(0, places[0] - 1)
    return places if len(places) > 1 else []


def _begins(telling: Telling, place: int) -> bool:
    """Whether the list of the note at the place begins with it."""
    before, step = telling.steps[place - 1 : place + 1]
    return are_apart(before, step) or not one_list(before, step)


def _speaks_of_two(telling: Telling, said: Instruction) -> bool:
    return bool(telling.said_between(said.start, said.end) & {*telling.words.both})
