"""Words about the note just told: how it was played, how it sounds, what it is called."""

from __future__ import annotations

from typing import cast

from notesgen.lesson.model import How
from notesgen.settle.hearing import scopes
from notesgen.settle.hearing.announced import joins
from notesgen.settle.hearing.counts import strokes
from notesgen.settle.hearing.lettered import string_in_front
from notesgen.settle.hearing.placed import grip_of
from notesgen.settle.hearing.rows import hold
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

NEAR = 2  # sentences within which words about "that" reach back
NAMED_WITHIN = 6  # items after a note within which its name is told
NEXT = "next"  # the slot "side" of a letter that can only be a further note
LAST = "last"  # the slot "side" of words that take back one note only
AT_ONCE = 1  # ... in the same breath
MANNER = frozenset({"mark", "how"})  # what tells how a note is played, before it is named


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
    told = cast(How, said.text("how") or "pull-off")
    how: How = last.how
    if how == "pick" and joins(told, before, last):
        how = told
    if how != "pick":
        telling.change_last(how=how, unsure_how=(how, "pick"))


def letter(telling: Telling, said: Instruction) -> None:
    """The name of the last note, where it was told just before; or the next note of a run told by names."""
    last, name = telling.last(), said.text("letter")
    if scopes.names_strings(telling, said):
        return
    if said.text("side") == NEXT or (name and string_in_front(telling, said, [name])):
        scopes.letters(telling, said)
        return
    if last is None or name is None or len(last.voices) > 1 or last.letter:
        return
    if scopes.corrects_to_letter(telling, said, name) or scopes.comes_back_to(telling, said, name):
        return
    apart = said.start - last.end
    if 0 <= apart <= NAMED_WITHIN and not _is_article(telling, said):
        telling.change_last(letter=name, letter_at_once=apart <= AT_ONCE or _behind_manner(telling, said))


def _behind_manner(telling: Telling, said: Instruction) -> bool:
    """Whether only how the note sounds stands before its name: "six, and put some shake on it. It's an A"."""
    before = telling.preceding
    return before is not None and before.kind in MANNER and said.start - before.end <= AT_ONCE


def _is_article(telling: Telling, said: Instruction) -> bool:
    """Whether the letter is the word before a thing: "it's a gallop"."""
    at = said.end - 1
    one, behind = telling.items[at], telling.items[said.end : said.end + 1]
    bare = one.text == "a" and not one.capital and telling.items[at - 1].text in telling.words.stating
    return bare and any(item.before == Break.NONE and item.text not in telling.words.light for item in behind)


def unplayed(telling: Telling, said: Instruction) -> None:
    """Takes back the note just struck to hear it, or the sentence before: the fingers were only placed."""
    last = telling.last()
    if said.text("side") == LAST:
        if last is not None and last.how == "pick" and telling.near(said, 1):
            telling.steps.pop()
        return
    down: list[Step] = []
    while last and telling.near(said, NEAR) and last.sentence - telling.steps[-1].sentence <= 1:
        down.append(telling.steps.pop())
        if not telling.steps:
            break
    if grip_of(down[::-1]).frets:
        hold(telling, grip_of(down[::-1]))
