"""How notes sound: the last one, all strings of a chord told one by one, or a whole passage that is muted."""

from __future__ import annotations

from itertools import takewhile
from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import Mark
from notesgen.settle.hearing import nicknames
from notesgen.settle.hearing.counts import is_same_note
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

NEAR = 2  # sentences within which words about "that" reach back
ALL = "all"  # the slot "side" of words about all notes that can sound on
HELD = "held"  # ... about a bend that is kept up
PASSAGE = "passage"  # ... about all that follows in the section
OFF = "off"  # ... that end it
CHORD = 3  # strings from which notes told one by one are a chord that rings as one
OF_ALL_STROKES = frozenset({"palm-mute", "staccato"})  # what holds for each stroke of a note struck again


def mark(telling: Telling, said: Instruction) -> None:
    """A colour of the last note, or of the next where the sentence has none yet."""
    value, side = cast(Mark, said.text("mark")), said.text("side")
    last = telling.last()
    if side == nicknames.CALLED:
        nicknames.call(telling, said)
    elif side in (PASSAGE, OFF):
        telling.muted_in = len(telling.sections) if side == PASSAGE else 0
    elif side == HELD:
        if last is not None and last.is_bent and telling.near(said, 1):
            telling.bend_held = len(telling.steps)
        elif _holds_shape(telling, said):
            telling.placing_at = said.end
    elif value == "staccato" and telling.named_since() and _damps(telling, said):
        telling.damped_at = said.start
    elif value == "palm-mute" and (last is None or last.sentence != telling.sentences.of(said.start)):
        telling.next_marks = (value,)
    elif telling.near(said, NEAR):
        _mark(telling, value, all_of_them=side == ALL)


def _damps(telling: Telling, said: Instruction) -> bool:
    """Whether "choke it" speaks of a string that was just named, not of the note before."""
    return bool(telling.said_between(said.start, said.end + 1) & set(telling.words.damping))


def _holds_shape(telling: Telling, said: Instruction) -> bool:
    """Whether fingers are put down by the word: "hold 3 on the D, 2 on the G, 3 on the B"."""
    sentence = telling.sentences.of(said.start)
    told = [one for one in telling.following if telling.sentences.of(one.start) == sentence]
    frets = [one for one in told if one.all("fret")]
    return len(frets) > 1 and told[0] is frets[0] and told[0].start == said.end


def sound_on(telling: Telling, told: int) -> None:
    """Mutes the notes told from place `told` on where the passage is muted, and lets a held bend ring.

    A bend that was said to be held rings while the next note, on another string, is struck.
    """
    for place in range(told, len(telling.steps)):
        if telling.muted_in == telling.steps[place].section:
            telling.steps[place] = _with(telling.steps[place], "palm-mute")
    at = telling.bend_held
    if not 0 < at < len(telling.steps):
        return
    telling.bend_held = 0
    bent, after = telling.steps[at - 1], telling.steps[at]
    if after.how != "release" and not _shares_string(bent, after):
        telling.steps[at - 1] = _with(bent, "let-ring")


def _mark(telling: Telling, value: Mark, *, all_of_them: bool) -> None:
    telling.mark_last(value)
    if value == "let-ring":
        together = _strings_apart(telling)
        if all_of_them or together >= CHORD:
            for back in range(2, together + 1):
                telling.steps[-back] = _with(telling.steps[-back], value)
    elif value in OF_ALL_STROKES:
        for back in range(2, _struck_over(telling) + 1):
            telling.steps[-back] = _with(telling.steps[-back], value)


def _struck_over(telling: Telling) -> int:
    """How many of the last steps are told as struck again, with the stroke that they began with."""
    again = sum(1 for _ in takewhile(lambda step: step.again, reversed(telling.steps)))
    first = telling.last(again + 1)
    return again + (first is not None and is_same_note(telling.steps[-again] if again else first, first))


def _strings_apart(telling: Telling) -> int:
    """How many of the last notes lie each on a string of its own, so that all of them can sound on.

    They rise or fall through the strings, as a broken chord does; a melody crosses them otherwise.
    """
    last = telling.steps[-1]
    strings = [_string(step) for step in telling.steps[-LOOK_BACK:]]
    count, way = 1, 0
    for place in range(len(strings) - 2, -1, -1):
        step = telling.steps[place - len(strings)]
        one, two = strings[place], strings[place + 1]
        turn = 0 if one is None or two is None else (one > two) - (one < two)
        if not turn or turn != (way or turn) or step.section != last.section or step.how != last.how:
            break
        count, way = count + 1, turn
    return count


def _string(step: Step) -> int | None:
    """The one string that the step was said to be on, None where that is open, or several are struck."""
    named = step.voices[0].named or step.before
    return named[0] if len(named) == 1 and len(step.voices) == 1 else None


def _shares_string(one: Step, other: Step) -> bool:
    """Whether both may be on one string, as far as strings were said."""
    here, there = (
        {string for voice in step.voices for string in voice.named or step.before} for step in (one, other)
    )
    return not here or not there or bool(here & there)


def _with(step: Step, value: Mark) -> Step:
    return step if value in step.marks else replace(step, marks=(*step.marks, value))
