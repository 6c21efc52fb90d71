"""How notes just told are played: hammered, pulled, slid or struck, one of them, a list or all of a run.

Words that fit nothing behind them are taken for an announcement of the notes to come (`announced`).
"""

from __future__ import annotations

from itertools import takewhile
from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, How
from notesgen.settle.hearing import announced
from notesgen.settle.hearing.announced import EACH, FROM, LIST, ONE, PASSAGE, SLURRED, SLURS, joins
from notesgen.settle.hearing.corrections import told
from notesgen.settle.hearing.every_list import of_named_string, slur_every_list
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.hearing.together import together
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

NEAR = 2  # sentences within which words about "that" reach back
BARE = 2  # items up to which words about a list may be talk about the technique
BARE_FRET = "bare"  # the slot "side" of "no pick", which is of a fret told without a string
STROKE = "stroke"  # the slot "label" of words about one stroke of the pick
ALIKE = "alike"  # the slot "how" of notes that are played as those before them


def how_afterwards(telling: Telling, said: Instruction) -> None:
    """The technique of the notes just told, or of those to come."""
    how, side = said.text("how"), said.text("side")
    if how in (None, "none"):
        return
    last = telling.last()
    if side == ONE or (side == BARE_FRET and last and not telling.has_own_string(last)):
        _of_one(telling, said, how)
        return
    if side == BARE_FRET:
        return
    if how == "pick":
        announced.end(telling)
    if side == FROM:
        announced.begin(telling, said, how)
        return
    if _slur_on_string(telling, said, how) or _slur_all(telling, said, how):
        return
    if side in (PASSAGE, EACH):
        if not telling.near(said, 0) or not _slur_list(telling, said, how):
            announced.begin(telling, said, how)
        return
    if side == LIST:
        if said.text("label") == STROKE and _on_strings_of_their_own(telling, said):
            together(telling, said)
            return
        if not _stands_alone(telling, said) or _slur_list(telling, said, how):
            return
        if said.whole("count") is None and not _is_done(telling, said, how):
            announced.begin(telling, said, how)
        return
    if telling.steps:
        _of_the_last(telling, said, how)


def _on_strings_of_their_own(telling: Telling, said: Instruction) -> bool:
    """Whether one stroke sounds all notes at once: the last two were told with strings of their own."""
    every = telling.said_between(said.start, said.end) & {*telling.words.every}
    named = [step.voices[0].named for step in telling.steps[-2:] if len(step.voices) == 1]
    apart = len(named) == 2 and all(named) and not {*named[0]} & {*named[1]}
    return bool(every) and telling.near(said, 1) and apart


def _of_the_last(telling: Telling, said: Instruction, how: str) -> None:
    if how == "harmonic":
        if telling.near(said, NEAR) and telling.steps[-1].how == "pick":
            telling.change_last(how=how)
        return
    if telling.correcting is not None:
        _put_right(telling, said, how)
    elif said.all("to"):
        _how_of_one(telling, said, how)
    elif how == ALIKE:
        _alike(telling)
    elif how == SLURRED:
        _slur(telling, (said.whole("count") or 2) - 1)
    else:
        _slur_run(telling, said, how)


def _slur_on_string(telling: Telling, said: Instruction, how: str) -> bool:
    """The technique of the notes on the string named right before: "on the B I pick all of them"."""
    places = of_named_string(telling, said)
    if places is None or said.all("to") or said.text("side") in (PASSAGE, EACH):
        return False
    for place in places:
        step = telling.steps[place]
        if how == "pick" and step.how in SLURS:
            telling.steps[place] = replace(step, how="pick")
        way = announced.way(how, telling.steps[place - 1], step) if place and how != "pick" else None
        if way and step.how == "pick" and announced.one_list(telling.steps[place - 1], step):
            telling.steps[place] = replace(step, how=way, joined=True)
    return True


def _slur_all(telling: Telling, said: Instruction, how: str) -> bool:
    """The technique of all lists just told: "they're all hammered", "one pick for each string"."""
    words = telling.said_between(said.start, said.end)
    wide = said.text("side") in (PASSAGE, EACH)
    wide = wide or bool(words & {*telling.words.every, *telling.words.each, *telling.words.both})
    if not wide or how not in (*LEGATO, SLURRED) or not telling.near(said, 1):
        return False
    return not _leads_to_list(telling, said) and slur_every_list(telling, said, how)


def _leads_to_list(telling: Telling, said: Instruction) -> bool:
    """Whether the words begin a sentence about all lists, and notes follow: they are of what comes."""
    if said.text("side") not in (PASSAGE, EACH) or telling.near(said, 0):
        return False
    close = telling.sentences.of(said.start) + 1
    notes = (one for one in telling.following if one.all("fret") or one.all("to"))
    return any(telling.sentences.of(one.start) <= close for one in notes)


def _stands_alone(telling: Telling, said: Instruction) -> bool:
    """Whether the words are a clause, or stand between notes: not "my hammer-ons were awful".

    Longer wordings say enough by themselves.
    """
    if said.end - said.start > BARE:
        return True
    items, before, after = telling.items, telling.preceding, telling.coming
    begins = said.start == 0 or items[said.start].before >= Break.SOFT
    ends = said.end >= len(items) or items[said.end].before >= Break.SOFT
    follows = before is not None and before.end == said.start
    leads = after is not None and after.start == said.end
    return (begins or follows) and (ends or leads)


def _of_one(telling: Telling, said: Instruction, how: str) -> None:
    """The last note alone: struck after all, or not struck again."""
    last = telling.last()
    if how != "pick":
        _slur_list(telling, said, how)
    elif last and last.how in SLURS and telling.near(said, NEAR):
        telling.change_last(how="pick")


def _slur_run(telling: Telling, said: Instruction, how: str) -> None:
    """All pairs of the run that the technique can join, or the last ones where the words speak of "that"."""
    run = telling.trailing()
    if telling.said_between(said.start, said.end) & {*telling.words.both}:
        run = min(run, 2)
    opens = {*telling.words.pointing, *telling.words.struck, *telling.words.joining}
    single = telling.items[said.start].text in opens and said.whole("count") is None
    reach = min(run, 2) if single and how != "pick" else run
    reach += _goes_on_alone(telling, said, run)
    for back in range(1, reach + (how == "pick")):
        step, before = telling.steps[-back], telling.last(back + 1)
        if how == "pick":
            if back <= run and step.how in SLURS:
                telling.steps[-back] = replace(step, how="pick")
        elif before and step.how == "pick" and joins(how, before, step):
            telling.steps[-back] = replace(step, how=cast(How, how))


def _goes_on_alone(telling: Telling, said: Instruction, run: int) -> bool:
    """Whether the one note of a sentence goes on from the sentence before: "7 on the G. Then 9, a slide"."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or run != 1 or not telling.near(said, 0):
        return False
    here = not telling.has_own_string(last) or last.voices[0].named == before.voices[0].named
    return here and last.sentence - before.sentence == 1 and last.section == before.section


def _slur_list(telling: Telling, said: Instruction, how: str) -> bool:
    """Joins the plain notes of the list just told, or so many of its last ones; False where none can be."""
    if not telling.near(said, NEAR):
        return False
    joined, count = 0, said.whole("count")
    most = len(telling.steps) - 1 if count is None else min(count, len(telling.steps) - 1)
    for back in range(1, most + 1):
        step, before = telling.steps[-back], telling.steps[-back - 1]
        way = announced.way(how, before, step)
        if step.how != "pick" or way is None or not announced.one_list(before, step):
            break
        telling.steps[-back] = replace(step, how=way, joined=True)
        joined += 1
    return joined > 0


def _is_done(telling: Telling, said: Instruction, how: str) -> bool:
    """Whether the notes just told were told to be played so: "10 pull off 8, those are pull-offs"."""
    last = telling.last()
    if last is None or not telling.near(said, 1):
        return False
    return last.how == how or (how == SLURRED and last.how in LEGATO)


def _put_right(telling: Telling, said: Instruction, how: str) -> None:
    """The technique of the note just told is put right, and its fret where one is told with it."""
    telling.correcting = None
    last, fret = telling.steps[-1], said.whole("to")
    slip = last.how if fret is None else told(last)
    voices = last.voices if fret is None else tuple(replace(voice, fret=fret) for voice in last.voices)
    telling.change_last(how=how, voices=voices, corrected=slip)


def _how_of_one(telling: Telling, said: Instruction, how: str) -> None:
    """The technique of the one note whose fret is told over: "the 8 is a hammer-on"."""
    for back in range(1, min(LOOK_BACK, len(telling.steps) - 1) + 1):
        step, before = telling.steps[-back], telling.steps[-back - 1]
        if step.frets == (said.whole("to"),) and step.how == "pick" and joins(how, before, step):
            telling.steps[-back] = replace(step, how=cast(How, how))
            return


def _alike(telling: Telling) -> None:
    """Hammers and pulls the notes of the last wording as the same number before them."""
    last = telling.steps[-1]
    size = sum(1 for _ in takewhile(lambda step: step.start == last.start, reversed(telling.steps)))
    for back in range(1, size):
        if len(telling.steps) < back + size:
            return
        step, model = telling.steps[-back], telling.steps[-back - size]
        if step.how == "pick" and joins(model.how, telling.steps[-back - 1], step):
            telling.steps[-back] = replace(step, how=model.how)


def _slur(telling: Telling, joined: int) -> None:
    """Makes legato of the last notes, so many as are joined to the one before them."""
    for back in range(1, min(joined, len(telling.steps) - 1) + 1):
        step, before = telling.steps[-back], telling.steps[-back - 1]
        way = announced.way(SLURRED, before, step)
        if step.how == "pick" and way is not None:
            telling.steps[-back] = replace(step, how=way)
