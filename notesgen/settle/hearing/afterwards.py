"""Words about the note just told: how it was played, how it sounds, what it is called."""

from __future__ import annotations

from itertools import takewhile
from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import How, Mark
from notesgen.settle.hearing import scopes
from notesgen.settle.hearing.corrections import told
from notesgen.settle.hearing.counts import strokes
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

NEAR = 2  # sentences within which words about "that" reach back
NAMED_WITHIN = 6  # items after a note within which its name is told
NEXT = "next"  # the slot "side" of a letter that can only be a further note
LEGATO = "legato"  # the slot "how" of notes that are joined whichever way they go
ALIKE = "alike"  # ... of notes that are played as those before them
LAST = "last"  # the slot "side" of words that take back one note only
AT_ONCE = 1  # ... in the same breath


def how_afterwards(telling: Telling, said: Instruction) -> None:
    """The technique of the notes just told: of all legato pairs in the run, or of so many."""
    how = said.text("how")
    if how in (None, "none") or not telling.steps:
        return
    if how == "harmonic":
        if telling.near(said, NEAR) and telling.steps[-1].how == "pick":
            telling.change_last(how=how)
        return
    if telling.correcting is not None:
        _put_right(telling, said, how)
        return
    if said.all("to"):
        _how_of_one(telling, said, how)
        return
    run = telling.trailing()
    opens = {*telling.words.pointing, *telling.words.struck, *telling.words.joining}
    single = telling.items[said.start].text in opens and said.whole("count") is None
    reach = min(run, 2) if single and how != "pick" else run
    if how == ALIKE:
        _alike(telling)
        return
    if how == LEGATO:
        _slur(telling, (said.whole("count") or 2) - 1)
        return
    for back in range(1, reach + (how == "pick")):
        step, before = telling.steps[-back], telling.last(back + 1)
        if how == "pick":
            if back <= run and step.how in ("hammer-on", "pull-off"):
                telling.steps[-back] = replace(step, how="pick")
        elif before and step.how == "pick" and _fits(how, before, step):
            telling.steps[-back] = replace(step, how=how)


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
        if step.frets == (said.whole("to"),) and step.how == "pick" and _fits(how, before, step):
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
        if step.how == "pick" and _fits(model.how, telling.steps[-back - 1], step):
            telling.steps[-back] = replace(step, how=model.how)


def _slur(telling: Telling, joined: int) -> None:
    """Makes legato of the last notes, so many as are joined to the one before them."""
    for back in range(1, min(joined, len(telling.steps) - 1) + 1):
        step, before = telling.steps[-back], telling.steps[-back - 1]
        for how in ("hammer-on", "pull-off"):
            if step.how == "pick" and _fits(how, before, step):
                telling.steps[-back] = replace(step, how=how)


def _fits(how: str, before: Step, step: Step) -> bool:
    """Whether the technique can lead from the one step to the other: right direction, one string."""
    if len(step.voices) > 1 or len(before.voices) > 1 or "x" in step.frets + before.frets:
        return False
    one, two = before.voices[0], step.voices[0]
    if one.named and two.named and not set(one.named) & set(two.named):
        return False
    rise = int(two.fret) - int(one.fret)
    return {"hammer-on": rise > 0, "pull-off": rise < 0}.get(how, rise != 0)


def mark(telling: Telling, said: Instruction) -> None:
    """A colour of the last note, or of the next where the sentence has none yet."""
    value = said.text("mark")
    if not value:
        return
    last = telling.last()
    sentence = telling.sentences.of(said.start)
    if value == "palm-mute" and (last is None or last.sentence != sentence):
        telling.next_marks = (cast(Mark, value),)
    elif telling.near(said, NEAR):
        telling.mark_last(cast(Mark, value))


def either(telling: Telling, said: Instruction) -> None:
    """How, how often or at which fret the last note is played was left open.

    How it is played is read as legato when it can be. "Or 6" right behind a note struck once is a fret.
    """
    last, before = telling.last(), telling.last(2)
    number = said.whole("count")
    if number is not None:
        if not telling.near(said, 1):
            return
        once = strokes(telling) == 1 and slot_of(said, "count").end == said.end
        if once and telling.near(said, 0):
            telling.change_last(unsure_fret=number)
        else:
            telling.change_last(unsure_count=f"{strokes(telling)} or {number}")
        return
    if last is None or before is None or not telling.near(said, NEAR):
        return
    how: How = last.how
    if how == "pick" and _fits("pull-off", before, last):
        how = "pull-off"
    if how != "pick":
        telling.change_last(how=how, unsure_how=(how, "pick"))


def letter(telling: Telling, said: Instruction) -> None:
    """The name of the last note, where it was told just before; or the next note of a run told by names."""
    last, name = telling.last(), said.text("letter")
    if scopes.names_strings(telling, said):
        return
    if said.text("side") == NEXT:
        scopes.letters(telling, said)
        return
    if last is None or name is None or len(last.voices) > 1 or last.letter:
        return
    if scopes.corrects_to_letter(telling, said, name) or scopes.comes_back_to(telling, said, name):
        return
    apart = said.start - last.end
    if 0 <= apart <= NAMED_WITHIN:
        telling.change_last(letter=name, letter_at_once=apart <= AT_ONCE)


def unplayed(telling: Telling, said: Instruction) -> None:
    """Takes back the note just struck to hear it, or the sentence before: the fingers were only placed."""
    last = telling.last()
    if said.text("side") == LAST:
        if last is not None and last.how == "pick" and telling.near(said, 1):
            telling.steps.pop()
        return
    while last and telling.near(said, NEAR) and last.sentence - telling.steps[-1].sentence <= 1:
        telling.steps.pop()
        if not telling.steps:
            return
