"""Chords put down string by string, and then struck as a whole."""

from __future__ import annotations

from itertools import pairwise

from msgspec.structs import replace

from notesgen.settle.hearing import grips
from notesgen.settle.hearing.string_order import strike_in_order
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Voice
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

NEAR = 2  # sentences between the last string of a chord and its strum
A_CHORD = 3  # voices from which a step is one
APART = 1  # ... between one string of it and the next


def strum(telling: Telling, said: Instruction) -> None:
    """Makes one step of the strings put down one by one, and of the open ones that go with them."""
    if strike_in_order(telling, said):
        return
    chord = _put_down(telling)
    if telling.grip.frets and (not chord or telling.grip.at > chord[-1].start):
        if _is_told(telling, said):
            telling.change_last(end=said.end)
        else:
            grips.strike(telling, said)
        return
    if not chord or _has_other_object(telling, said) or not telling.near(said, NEAR):
        return
    if len(chord[-1].voices) >= A_CHORD:
        chord = chord[-1:]  # told as one already: what was struck before it is no part of it
    voices = [voice for step in chord for voice in step.voices]
    voices += [Voice(0, (string,)) for string in _open(telling, said, chord)]
    marks = tuple(dict.fromkeys(mark for step in chord for mark in step.marks))
    del telling.steps[-len(chord) :]
    one = replace(chord[0], voices=tuple(voices), end=said.end, marks=marks, placed=False)
    telling.steps.append(one)


def _is_told(telling: Telling, said: Instruction) -> bool:
    """Whether the chord has just been told as a whole, and "one big strum" only says how it is struck."""
    last, words = telling.last(), telling.said_between(said.start, said.end)
    known = words & {*telling.words.struck} and not words & {*telling.words.moving_on, *telling.words.again}
    return last is not None and len(last.voices) >= A_CHORD and telling.near(said, 1 if known else 0)


def _has_other_object(telling: Telling, said: Instruction) -> bool:
    """Whether words go on behind a bare "you strum", for what is strummed is told only then."""
    if telling.items[said.end - 1].text not in telling.words.striking or said.end >= len(telling.items):
        return False
    following = telling.items[said.end]
    return following.before < Break.SOFT and following.text not in telling.words.together_with


def open_rest(telling: Telling, said: Instruction) -> None:
    """All strings but those just put down are open."""
    telling.rest_open_at = said.start
    held = {string for step in _put_down(telling) for string in _strings(step)}
    for string in range(1, telling.names.count + 1):
        if string not in held:
            telling.hand[string] = 0


def _put_down(telling: Telling) -> list[Step]:
    """The last notes, back to the first whose string is needed twice, or that was played for itself."""
    chord: list[Step] = []
    used: set[int] = set()
    for step in reversed(telling.steps):
        strings = _strings(step)
        apart = bool(chord) and chord[0].sentence - step.sentence > APART
        alone = step.how != "pick" or step.stroke or step.again or step.section != len(telling.sections)
        if apart or alone or len(strings) < len(step.voices) or used & strings:
            break
        chord.insert(0, step)
        used |= strings
    return chord


def _open(telling: Telling, said: Instruction, chord: list[Step]) -> list[int]:
    """The strings that ring open because the rest was said to, or because so many strings are struck."""
    held = {string for step in chord for string in _strings(step)}
    count = _counted(telling, said)
    if not chord or (telling.rest_open_at < chord[0].start and count <= max(held, default=0)):
        return []
    most = count if count >= max(held, default=0) else telling.names.count
    return [string for string in range(1, most + 1) if string not in held]


def _counted(telling: Telling, said: Instruction) -> int:
    """How many strings the sentence says are struck, counted from the thinnest; 0 where it does not."""
    start = telling.sentences.start(telling.sentences.of(said.start))
    items = telling.items[start : said.end]
    counts = (telling.values.get(a.text, 0) for a, b in pairwise(items) if b.text in telling.words.string)
    count = max(counts, default=0)
    return count if A_CHORD < count <= telling.names.count else 0


def _strings(step: Step) -> set[int]:
    return {voice.named[0] for voice in step.voices if len(voice.named) == 1}
