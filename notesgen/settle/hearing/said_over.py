"""Counts and frets said over, or denied, behind what they tell: "three times. Not four. Three."."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.counts import strokes
from notesgen.settle.hearing.slots import named_at, slot_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step, Strings
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

COUNTED = frozenset({"count", "note_count", "bars"})  # slots that tell how many there are
SAID_OVER = 1  # items behind a count within which it is said over
PLAYED_ON = frozenset({"note", "hammer-on", "pull-off", "slide", "bend"})  # ... that make it one of a row
CLOSE = 2  # strokes by which a number may differ that would do as well
DENIED_WITHIN = 12  # items behind a fret that is not to be played within which it is spoken of
SKIPPED = 2  # instructions left out last that may have denied it
CONTRASTS = {"correction": "what", "frame": "what", "aside": "place"}  # slots by which a fret is set apart
NEAR = 2  # sentences behind strokes within which their number is said over by itself


def says_count_over(
    telling: Telling, said: Instruction, frets: Sequence[Fret], strings: Sequence[Strings]
) -> bool:
    """Whether a number by itself says over how often, or how many: "you play it four times. Four."."""
    if strings or len(frets) != 1 or not _is_bare(telling, said):
        return False
    if _goes_on(telling, said) and telling.items[said.start - 1].text not in telling.words.affirming:
        return False
    return _is_of_count_before(telling, said, frets[0]) or _is_of_strokes(telling, said, frets[0])


def says_open_over(
    telling: Telling, said: Instruction, frets: Sequence[Fret], strings: Sequence[Strings]
) -> bool:
    """Whether the words only say over that the string just told is open: "so the B rings open"."""
    last = telling.last()
    if last is None or list(frets) != [0] or last.frets != (0,) or not telling.near(said, 0):
        return False
    if last.how == "pull-off" and telling.items[last.end].text in telling.words.so_that:
        return not strings or strings[0] == (last.voices[0].named or telling.last_strings())
    if strings:
        return False
    said_so = telling.items[said.start].text in telling.words.nothing_else
    return said_so and telling.items[said.start].before < Break.HARD


def speaks_of_denied(
    telling: Telling, said: Instruction, frets: Sequence[Fret], strings: Sequence[Strings]
) -> bool:
    """Whether "that six" is the one that is not to be played: "don't play the six, that six is for later"."""
    if strings or len(frets) != 1 or not telling.anaphoric(slot_of(said, "fret").start):
        return False
    denied = [one for one in telling.skipped[-SKIPPED:] if said.start - one.end <= DENIED_WITHIN]
    told = any(frets[0] in step.frets for step in telling.steps[-LOOK_BACK:])
    return not told and any(frets[0] in one.all("fret") for one in denied)


def leaves_count_open(
    telling: Telling, said: Instruction, frets: Sequence[Fret], strings: Sequence[Strings]
) -> bool:
    """Whether a number by itself would do as well for the strokes just counted: "three, if you like"."""
    last = telling.last()
    if last is None or not last.again or strings or len(frets) != 1 or not telling.near(said, 1):
        return False
    number, struck = frets[0], strokes(telling)
    supposed = said.end < len(telling.items) and telling.items[said.end].text in telling.words.supposing
    if not supposed or not isinstance(number, int) or not 0 < abs(number - struck) <= CLOSE:
        return False
    if not _is_bare(telling, said) or telling.items[said.start].before < Break.HARD:
        return False
    few, many = sorted((struck, number))
    telling.change_last(unsure_count=f"{few} or {many}")
    return True


def says_note_over(
    telling: Telling, said: Instruction, frets: Sequence[Fret], strings: Sequence[Strings]
) -> bool:
    """Whether a fret only affirms the one just told: "then nine, yes, nine", "7, so on the A, 7"."""
    last = telling.last()
    if last is None or len(frets) != 1 or (frets[0],) != last.frets or not telling.near(said, 0):
        return False
    own = last.voices[0].named
    if telling.correcting is not None or (strings and own and strings[0] != own):
        return False
    words, denied = telling.words, _denied_since(telling, last)
    idle, known = {*words.article, *words.fret}, {*words.affirming}
    if denied:
        known |= {*words.settling, *words.stating, *words.differing, *words.pointing}
    lead = telling.said_between(max(last.end, denied), named_at(said)) - idle
    if not (lead or denied) or not lead <= known:
        return False
    if strings and not own:
        telling.change_last(voices=(replace(last.voices[0], named=strings[0]),))
    return True


def _denied_since(telling: Telling, last: Step) -> int:
    """The item behind a fret that was set apart from the last note, 0 if none: "6, it's not 4, it's 6"."""
    before = telling.preceding
    if before is None or before.start < last.end:
        return 0
    return before.end if before.kind in CONTRASTS and before.all(CONTRASTS[before.kind]) else 0


def denies_count(telling: Telling, said: Instruction) -> bool:
    """Whether a correction only denies another number of strokes: "three times, not four"."""
    last, before, denied = telling.last(), telling.preceding, said.whole("what")
    if last is None or before is None or denied is None or said.start - before.end > SAID_OVER:
        return False
    said_over = before.kind == "note" and before.start >= last.end and _is_bare(telling, before)
    if not (before.all("count") or said_over) or denied == strokes(telling):
        return False
    return last.again and (said_over or denied not in last.frets)


SAYS_OVER = (says_count_over, says_note_over, says_open_over, speaks_of_denied, leaves_count_open)
"""What tells whether a number is only said over, or was denied."""


def _is_bare(telling: Telling, said: Instruction) -> bool:
    """Whether the words are the number alone, or "the two", or "it's two"."""
    lead = telling.said_between(said.start, said.end - 1)
    return lead <= {*telling.words.article, *telling.words.settling, *telling.words.stating}


def _goes_on(telling: Telling, said: Instruction) -> bool:
    """Whether another note follows at once, so that the number is the first of a row."""
    here = telling.sentences.of(said.start)
    return any(
        one.start == said.end and one.kind in PLAYED_ON and telling.sentences.of(one.start) == here
        for one in telling.following[:1]
    )


def _is_of_count_before(telling: Telling, said: Instruction, number: Fret) -> bool:
    """Whether the words right before the number counted as many."""
    before = telling.preceding
    if before is None or said.start - before.end > SAID_OVER:
        return False
    return any(slot.name in COUNTED and str(slot.value) == str(number) for slot in before.slots)


def _is_of_strokes(telling: Telling, said: Instruction, number: Fret) -> bool:
    """Whether the number stands alone behind as many strokes, with talk between: "count them, five"."""
    last = telling.last()
    if last is None or not last.again or not telling.near(said, NEAR) or strokes(telling) != number:
        return False
    between = telling.said_between(last.end, said.start)
    return not between & {*telling.words.moving_on} and _stands_alone(telling, said, last)


def _stands_alone(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether the number is a clause of its own, but for words that only affirm it: "right, three"."""
    start = said.start
    while start > last.end and telling.items[start].before == Break.NONE:
        if telling.items[start - 1].text not in telling.words.affirming:
            return False
        start -= 1
    return said.end >= len(telling.items) or telling.items[said.end].before > Break.NONE
