"""Passages counted before they are told: "play this twice: 5, 7, 8 on the G"."""

from __future__ import annotations

from notesgen.settle.hearing.counts import strike_again
from notesgen.settle.hearing.passages import passage
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.told import Ahead, Loop, read_count
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

PASSAGE_AHEAD = frozenset({"note", "pair", "shape", "hammer-on", "pull-off", "slide", "legato", "scope"})
LINK = 1  # items between the count and its passage: "twice through, so 5, 7, 8"
LEAD = 3  # items of a sentence before the words that count: "okay, so then play this twice"


def begins_passage(telling: Telling, said: Instruction) -> bool:
    """Whether the words count what follows at once in their sentence; says so.

    Behind notes they do where they point ahead: "this", not "that".
    """
    coming, sentence = telling.coming, telling.sentences.of(said.start)
    if coming is None or coming.kind not in PASSAGE_AHEAD or said.start < telling.heard_until:
        return False
    words = telling.words
    opens = said.start - telling.sentences.start(sentence) <= LEAD and not telling.near(said, 0)
    at_once = coming.start - said.end <= LINK and telling.sentences.of(coming.start) == sentence
    moves_on = {*words.moving_on, *words.joining} & telling.said_between(said.end, coming.start + 1)
    if not (opens and at_once) or moves_on or read_count(said.text("count"))[0] < 2:
        return False
    pointed = bool({*words.ahead} & telling.said_between(said.start, said.end))
    paused = telling.items[coming.start].before > Break.NONE
    if passage(telling, whole=False) and not (pointed and paused):
        return False
    telling.repeated_ahead = Ahead(said, len(telling.steps), sentence)
    return True


def close_passage(telling: Telling, at: Instruction | None) -> None:
    """Repeats the passage that was counted ahead, when its sentence is over; `at` is what comes now."""
    ahead = telling.repeated_ahead
    if ahead is None or (at is not None and telling.sentences.of(at.start) == ahead.sentence):
        return
    telling.repeated_ahead = None
    told = len(telling.steps) - ahead.first
    times, unsure = read_count(ahead.said.text("count"))
    if told == 1:
        strike_again(telling, times, unsure)
    elif told > 1:
        telling.loops.append(Loop(ahead.first, len(telling.steps) - 1, times, unsure))
