"""Notes just told, said over on the way to the next one: "after 10 and 12 comes 14", "that's 5, now 7"."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.slots import frets_of, named_at
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step, Strings
from notesgen.speech.instructions import Instruction

LED_WITHIN = 10  # items behind the last note within which it is said over
APART = 1  # items between two notes that are said over
NEAR = 2  # sentences within which they were told
LEADS_ON = 6  # items within which the next note shows that the telling goes on


def said_on_the_way(
    telling: Telling, said: Instruction, frets: Sequence[Fret], strings: Sequence[Strings]
) -> bool:
    """Whether the words only say over the notes told last, before they lead on to a new one.

    Words of what is done lead to nothing new: "once you've played the 5". Others only state what there is,
    "you've got your 5", and do so where what follows goes on from it: "now add 7".
    """
    last = telling.last()
    if last is None or telling.correcting is not None or not frets or not telling.near(said, NEAR):
        return False
    at, words = named_at(said, "fret"), telling.words
    lead = [item.text for item in telling.items[last.end : at]]
    if not lead or at - last.end > LED_WITHIN or {*lead} & {*words.moving_on, *words.again, *words.negating}:
        return False
    done, stated = _speaks_of_done(telling, lead), _states(telling, lead)
    recap = any(cue.at >= last.end for cue in telling.recaps[-1:])  # weighed as one where nothing follows
    run = _run(telling, said) if done or stated else []
    if not run or not ((done and not recap) or _leads_on(telling, run)):
        return False
    telling.skipped += run[1:]
    telling.not_played_until = run[-1].end
    return True


def _speaks_of_done(telling: Telling, lead: list[str]) -> bool:
    """Whether the words tell what is behind: "after your", "you've played", "that's", not "after that"."""
    words = telling.words
    if lead[-1] in words.coming_after or {*lead[-3:-1]} & {*words.coming_after}:
        return lead[-1] not in words.pointing
    past = {*lead} & {*words.past} and {*lead} & {*words.pointing}
    plain = [text for text in lead if text not in {*words.affirming, *words.article}]
    only = len(plain) == 2 and plain[0] in words.pointing and plain[1] in words.stating
    return bool(only or past or {*lead} & {*words.done})


def _states(telling: Telling, lead: list[str]) -> bool:
    """Whether the words state what there is, and do not go on with "and": "you've got the", "those two"."""
    words = telling.words
    points = {*lead} & {*words.pointing} and {*lead} & {*words.stating, *words.whole}
    return lead[0] not in words.joining and bool(points or {*lead} & {*words.got})


def _run(telling: Telling, said: Instruction) -> list[Instruction]:
    """What says the notes told last over, every one of them and in their order; empty where nothing does."""
    run, frets = list[Instruction](), list[Fret]()
    best = 0
    for one in (said, *telling.following):
        told = frets_of(one, "fret")
        if one.kind != "note" or not told or (run and one.start - run[-1].end > APART):
            break
        run, frets = [*run, one], [*frets, *told]
        over = telling.steps[-len(frets) :] if len(frets) <= LOOK_BACK else []
        if [step.frets for step in over] == [(fret,) for fret in frets] and _is_there(telling, run, over):
            best = len(run)
    return run[:best]


def _is_there(telling: Telling, run: list[Instruction], over: list[Step]) -> bool:
    """Whether the strings that are named, if any, are those of the notes told."""
    named = [strings for one in run for strings in telling.strings_of(one)]
    if since := telling.named_since():
        named += since.strings
    told = {string for step in over for string in (*step.voices[0].named, *step.before)}
    return all(told & {*strings} for strings in named)


def _leads_on(telling: Telling, run: list[Instruction]) -> bool:
    """Whether words of going on lead from the notes said over to another one: "now add 7"."""
    words, end = telling.words, run[-1].end
    coming = next((one for one in telling.following if one.start >= end and one.all("fret")), None)
    if coming is None or coming.start - end > LEADS_ON:
        return False
    between = telling.said_between(end, named_at(coming, "fret"))
    link = {*words.turning_to, *words.coming_after, *words.leading_on}
    return bool(between & link) and not between & {*words.again}
