"""A technique announced before its notes: for the next list ("now pull-offs"), or for all lists to come.

"You pick only the first of each string, the rest is hammers" holds until the next piece begins, or until
notes come that cannot be played so.
"""

from __future__ import annotations

from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import How
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Announced, Step
from notesgen.speech.instructions import Instruction
from notesgen.speech.surroundings import ODD

LIST = "list"  # the slot "side" of words about a list: the one just told, or the next
PASSAGE = "passage"  # ... about all lists of the passage
EACH = "each"  # ... about all lists, with so many notes a stroke
ONE = "one"  # ... about the last note alone
FROM = "from"  # ... about the list that the note just told begins
SLURRED = "legato"  # the slot "how" of notes that are joined whichever way they go
SLURS: tuple[How, ...] = ("hammer-on", "pull-off")
WITHIN = 2  # sentences within which the list follows that was announced
REACH = 9  # frets that the fretting hand spans at most, from one stopped note to the other; generous
MISFITS = 8  # notes in a row that are not played as announced, which end it


def begin(telling: Telling, said: Instruction, how: str) -> None:
    """From here on notes of one list are joined."""
    side = said.text("side")
    size = said.whole("count") or 0 if side == EACH else 0
    telling.announced = Announced(
        how=how,
        sentence=telling.sentences.of(said.start),
        section=len(telling.sections),
        first=len(telling.steps) - (side == FROM),
        passage=side in (PASSAGE, EACH),
        size=size,
    )


def end(telling: Telling) -> None:
    """What was announced holds no longer."""
    telling.announced = None


def play_announced(telling: Telling, said: Instruction, told: int) -> None:
    """Joins the plain notes told from place `told` on as was announced, where the frets allow it."""
    _pull_back(telling, said, told)
    for place in range(told, len(telling.steps)):
        now, step = telling.announced, telling.steps[place]
        if now is None or _is_over(now, step):
            telling.announced = None
            return
        if place <= now.first:
            continue
        before = telling.steps[place - 1]
        how = way(now.how, before, step)
        sure = step.doubt < ODD and not step.misheard
        plain = sure and step.how == "pick" and not step.stroke and not step.again and one_list(before, step)
        struck = telling.said_between(step.start, step.end) & set(telling.words.striking)
        full = now.size and now.run + 1 >= now.size
        if how is not None and plain and not struck and not full:
            telling.steps[place] = replace(step, how=how, joined=True)
            telling.announced = replace(now, joined=now.joined + 1, run=now.run + 1, misfits=0)
        elif now.passage:
            telling.announced = replace(now, run=0, misfits=now.misfits + 1)
        elif not one_list(before, step) or (not now.joined and place > now.first + 1):
            telling.announced = None


def _pull_back(telling: Telling, said: Instruction, told: int) -> None:
    """Pulls off to the fret that was just hammered from, where the words go "back" to it."""
    if told != len(telling.steps) - 1 or told < 2:
        return
    start, hammered, step = telling.steps[-3:]
    words = telling.said_between(hammered.end, said.end)
    comes_back = words & set(telling.words.going_back) and not words & set(telling.words.striking)
    if hammered.how != "hammer-on" or step.how != "pick" or start.frets != step.frets or not comes_back:
        return
    if joins("pull-off", hammered, step) and one_list(hammered, step):
        telling.change_last(how="pull-off", joined=True)


def _is_over(now: Announced, step: Step) -> bool:
    """Whether a new piece has begun, the list did not come, or other notes than those announced did."""
    late = not now.passage and not now.joined and step.sentence - now.sentence > WITHIN
    return step.section != now.section or late or now.misfits >= MISFITS


def one_list(before: Step, step: Step) -> bool:
    """Whether both belong to one list, so that a stroke may sound both: one string, told in one go."""
    if are_apart(before, step):
        return False
    return step.section == before.section and step.sentence - before.sentence <= 1


def are_apart(before: Step, step: Step) -> bool:
    """Whether the strings that were said, or were in force, put both on different strings."""
    one, two = (s.voices[0].named or s.before for s in (before, step))
    return bool(one and two) and not set(one) & set(two)


def way(how: str, before: Step, step: Step) -> How | None:
    """How the later note is joined to the earlier one, None where it cannot be."""
    ways: tuple[How, ...] = SLURS if how == SLURRED else (cast(How, how),)
    return next((one for one in ways if joins(one, before, step)), None)


def joins(how: str, before: Step, step: Step) -> bool:
    """Whether the technique can lead from the one step to the other: right direction, one string."""
    if len(step.voices) > 1 or len(before.voices) > 1 or "x" in step.frets + before.frets:
        return False
    one, two = before.voices[0], step.voices[0]
    if one.named and two.named and not set(one.named) & set(two.named):
        return False
    rise = int(two.fret) - int(one.fret)
    if how in SLURS and abs(rise) > REACH and 0 not in (one.fret, two.fret):
        return False
    return {"hammer-on": rise > 0, "pull-off": rise < 0}.get(how, rise != 0)
