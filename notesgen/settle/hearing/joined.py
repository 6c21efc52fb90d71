"""A note that is struck with another: "and with it the open B", "the open D under it", "at the same time".

Such words stand between the two notes, and lead on to the second; or behind it, and point back to the first.
"""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing import drones
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.hearing.voices import is_thumbed
from notesgen.settle.step import Step, Voice
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

GOES_WITH = "with"  # the slot "side" of words that join one note to another
AHEAD_WITHIN = 12  # items between them and the note to which they lead
BEHIND_WITHIN = 3  # items between a note and the words that join it to the one before
APART = 12  # items between the two notes that words behind the second join
MOST = 6  # voices that one stroke may have


def goes_with(telling: Telling, said: Instruction) -> None:
    """Joins the note that comes to the one just told, or the one just told to that before it."""
    if leads_on(telling, said) and not said.all("held"):
        telling.joining_at = said.end
        return
    if drones.joins_again(telling, said) or said.all("held"):
        return
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or said.start - last.end > BEHIND_WITHIN:
        return
    moved = telling.said_between(before.end, last.start) & set(telling.words.moving_on)
    near = last.start - before.end <= APART and last.sentence - before.sentence <= 1
    if near and not moved and fits(before, last):
        join(telling)


def leads_on(telling: Telling, said: Instruction) -> bool:
    """Whether the words lead on to a note: a pause or "and" is before them, and a note behind them."""
    coming, last = telling.coming, telling.last()
    opens = telling.items[said.start].before > Break.NONE or bool(
        telling.said_between(said.start - 1, said.start + 1) & set(telling.words.joining)
    )
    if coming is None or last is None or said.start < last.end:
        return False
    if not opens and (said.start - last.end > 1 or _points_back(telling, last)):
        return False
    denied = {*telling.words.every, *telling.words.going_with}
    if telling.items[said.end - 1].text in telling.words.going_with:
        denied = {*telling.words.every}  # "and with it goes the open B"
    if telling.said_between(said.start, said.end) & denied:
        return False
    one_sentence = telling.sentences.of(coming.start) == telling.sentences.of(said.end - 1)
    moved = telling.said_between(said.end, _first_slot(coming)) & set(telling.words.moving_on)
    return one_sentence and coming.start - said.end <= AHEAD_WITHIN and not moved


def join_told(telling: Telling, said: Instruction, told: int) -> None:
    """The note told since step `told` is struck with the one before it, where words led to it so."""
    at = telling.joining_at
    if at < 0 or len(telling.steps) <= told:
        return
    telling.joining_at = -1
    if told == 0 or said.start - at > AHEAD_WITHIN:
        return
    before, new, *others = telling.steps[told - 1 :]
    if _keeps_the_open(telling, before, new):
        return
    if not fits(before, new):
        return
    del telling.steps[told:]
    telling.steps.append(new)
    join(telling)
    telling.steps += others


def _keeps_the_open(telling: Telling, before: Step, new: Step) -> bool:
    """Strikes a bare fret with the open string of the pair before: "over it 7 on the D, then over it 9"."""
    opens = [voice for voice in before.voices if voice.fret == 0]
    moves = [voice for voice in before.voices if voice.fret != 0]
    lone = len(new.voices) == 1 and not new.voices[0].named and new.how == "pick"
    if not lone or len(opens) != 1 or len(moves) != 1:
        return False
    telling.steps[-1] = replace(new, voices=(opens[0], replace(new.voices[0], named=moves[0].named)))
    return True


def fits(before: Step, after: Step) -> bool:
    """Whether the two can be one stroke: each picked, every voice on a string that is known, its own."""
    plain = all(step.how in ("pick", "bend") and step.section == after.section for step in (before, after))
    named = [voice.named for step in (before, after) for voice in known(step)]
    apart = all(named) and len({string for strings in named for string in strings}) >= len(named)
    return plain and not before.placed and apart and len(set(named)) == len(named) <= MOST


def known(step: Step) -> tuple[Voice, ...]:
    """The voices of a step, a lone one with the string that is in force for it."""
    if len(step.voices) > 1 or step.voices[0].named:
        return step.voices
    return (replace(step.voices[0], named=step.before or step.voice),)


def join(telling: Telling) -> None:
    """Makes one stroke of the last two; the strings named on their own for them hold no longer."""
    before, last = telling.steps[-2:]
    voices = [
        replace(voice, how=step.how, bend=step.bend) if step.how == "bend" else voice
        for step in (before, last)
        for voice in known(step)
    ]
    voices = [_on_other_side(voice, voices, telling.names.count) for voice in voices]
    marks = tuple(dict.fromkeys((*before.marks, *last.marks)))
    words = telling.said_between(telling.steps[-3].end if len(telling.steps) > 2 else 0, last.end)
    bass = before.bass or last.bass or is_thumbed([*words], telling.words)
    one = replace(before, voices=tuple(voices), end=last.end, marks=marks, how="pick", bend=None, bass=bass)
    telling.steps[-2:] = [one]
    used = [naming for naming in telling.namings if before.start < naming.at < last.start]
    telling.namings = [naming for naming in telling.namings if naming not in used]


def _on_other_side(voice: Voice, voices: list[Voice], count: int) -> Voice:
    """The voice where a letter names two strings: over a bass the thin one, under a melody the thick."""
    sure = [other.named[0] for other in voices if len(other.named) == 1]
    if len(voice.named) < 2 or not sure:
        return voice
    return replace(voice, named=(min(voice.named) if max(sure) > count // 2 else max(voice.named),))


def _points_back(telling: Telling, last: Step) -> bool:
    """Whether the note just told is one that the words can join to another right before it."""
    before = telling.last(2)
    return before is not None and fits(before, last) and last.sentence == before.sentence


def _first_slot(coming: Instruction) -> int:
    told = [slot.start for slot in coming.slots if slot.name in ("fret", "string", "from")]
    return min(told, default=coming.start)
