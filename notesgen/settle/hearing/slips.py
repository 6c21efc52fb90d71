"""What a correction is of, where it is of no single note: a finger, a pair, a note said twice, an echo."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.corrections import told
from notesgen.settle.hearing.kinds import PLAYED
from notesgen.settle.hearing.slots import frets_of, named_at, slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

AT_ONCE = 3  # items between two parts of one correction
TOLD_OVER = ("from", "fret", "to")  # the slots with which a repair tells a fret over
SPOKEN = 6  # items before a correction within which the finger was named that it takes back
NEAR_BY = 2  # frets between a slip and what is said twice in its place
SAID_SINCE = 2  # sentences after which "sorry" still speaks of what was said twice
ORDINAL = "ordinal"  # the slot "side" of a bare ordinal
EXCUSES = frozenset({"correction", "aside", "letter"})  # what may stand before the pair that is told over


def of_finger(telling: Telling, said: Instruction) -> bool:
    """Whether only a finger is put right: "with the pinky, no, sorry, the ring finger"."""
    coming = telling.following[:1]
    named = [one for one in coming if one.all("finger") and one.start - said.end <= AT_ONCE]
    before = telling.said_between(said.start - SPOKEN, said.start)
    if not named or not before & set(telling.words.fingering):
        return False
    frets = [one for one in telling.following[1:2] if one.kind in PLAYED]
    return not frets or frets[0].start - named[0].end > 1 or _pauses(telling, named[0].end)


def of_what_is_not_played(telling: Telling, said: Instruction) -> bool:
    """ "Tune it to the fourth fret, no wait, to the fifth fret": the repair is not to be played either.

    A bare "no" contrasts instead: "not the fourth fret, no, the fifth".
    """
    if said.start != telling.not_played_until or not any(telling.skipped[-1:]):
        return False
    words = telling.said_between(said.start, said.end) - set(telling.words.negating)
    contrast = words & {*telling.words.settling, *telling.words.pointing}
    return bool(words) and not contrast and bool(telling.skipped[-1].all("fret"))


def _pauses(telling: Telling, at: int) -> bool:
    return at >= len(telling.items) or telling.items[at].before >= Break.SOFT


def of_fret_begun(telling: Telling, since: int) -> bool:
    """Whether a bare number that was no note yet is taken back: "the E string, second, no, third fret"."""
    begun = telling.preceding
    return begun is not None and begun.start >= since and begun.text("side") == ORDINAL


def hesitates(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether the speaker stops behind a fret and puts it right: "the eighth, er, the tenth fret".

    Between frets that lie apart, or in a list, one only stops to think: "5, um, 7", "open, 3, uh, 4".
    """
    frets, at = [fret for slot in TOLD_OVER for fret in frets_of(said, slot)], named_at(said, *TOLD_OVER)
    between = telling.items[last.end : at + 1]
    if not frets or last.closes or not any(item.hesitant for item in between):
        return False
    begun, over = (_says_fret(telling, *span) for span in ((last.start, last.end), (last.end, said.end)))
    broken_off = over and not begun and last.frets != (frets[0],)
    beside = not (begun and over) and _is_beside(last.frets, frets[0]) and not _is_listed(telling, said, last)
    idle = {*telling.words.article, *telling.words.fret, *telling.words.settling, *telling.words.stating}
    return (broken_off or beside) and all(item.text in idle for item in between[:-1])


def _says_fret(telling: Telling, start: int, end: int) -> bool:
    return bool(telling.said_between(start, end) & {*telling.words.fret})


def _is_beside(slipped: Sequence[Fret], fret: Fret) -> bool:
    """Whether one fret was told, and the other lies right beside it, as most slips do; no open string."""
    if len(slipped) != 1 or not {"x", 0}.isdisjoint({*slipped, fret}):
        return False
    return abs(int(slipped[0]) - int(fret)) == 1


def _is_listed(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether another fret is told right before the last one, or right behind this one."""
    before = telling.last(2)
    led_up = before is not None and before.sentence == last.sentence and last.start - before.end <= 1
    if led_up and last.how == "pick":
        return True
    sentence = telling.sentences.of(said.start)
    coming = telling.following[:1]
    return any(
        one.kind == "note" and one.start - said.end <= 1 and telling.sentences.of(one.start) == sentence
        for one in coming
    )


def speaks_of_slip(telling: Telling, said: Instruction) -> bool:
    """ "6, no, 5. Sorry, 6 is the evil one": an excuse, and then the slip is only spoken of."""
    last, coming = telling.last(), telling.following[:1]
    if last is None or not last.corrected or not coming or coming[0].start - said.end > 1:
        return False
    frets, end = frets_of(coming[0], "fret"), coming[0].end
    stated = end < len(telling.items) and telling.items[end].text in telling.words.stating
    if coming[0].kind != "note" or [str(fret) for fret in frets] != [last.corrected] or not stated:
        return False
    telling.not_played_until = end
    return True


def names_a_string(following: Sequence[Instruction]) -> bool:
    """Whether a string is told that may take the place of one taken back."""
    return any(one.all("string") or one.all("letter") or one.text("side") == ORDINAL for one in following)


def trails(telling: Telling, said: Instruction) -> bool:
    """Whether another string is told at once behind a note's own: "7 of the D, of the G, I mean"."""
    last = telling.last()
    return last is not None and last.end == said.start and bool(last.voices[-1].named)


def is_taken_back(telling: Telling, said: Instruction) -> bool:
    """Whether the string before the term is the slip, as another follows: "9 on the B, sorry, 9 on the G"."""
    if slot_of(said, "string").end >= said.end or trails(telling, said):
        return False
    return any(
        one.kind in (*PLAYED, "scope")
        and one.all("string")
        and one.start - said.end <= 1
        and telling.items[one.start].text not in telling.words.moving_on
        for one in telling.following[:1]
    )


def puts_pair_right(telling: Telling, said: Instruction) -> bool:
    """ "Nine and nine, no, ten and ten": what was struck as a pair is told over as one."""
    last = telling.last()
    if last is None or len(last.voices) != 2 or last.again or said.start - last.end > SPOKEN:
        return False
    over = _pair_in(telling, said)
    voices = _voices(last, over)
    if not voices:
        return False
    telling.steps.pop()
    first = replace(over[0][0], end=over[-1][0].end)
    telling.add(first, voices, last.how, corrected=told(last), marks=last.marks)
    telling.not_played_until = first.end
    return True


def _pair_in(telling: Telling, said: Instruction) -> list[tuple[Instruction, Fret, Strings]]:
    """The two frets, joined by "and", that follow the correction, each with its string if one is named."""
    notes: list[tuple[Instruction, Fret, Strings]] = []
    reached = said.end
    for one in telling.following:
        if one.start - reached > AT_ONCE:
            break
        if one.kind == "note":
            strings = telling.strings_of(one)
            notes += [(one, fret, strings[0] if strings else ()) for fret in frets_of(one, "fret")]
        elif notes or one.kind not in EXCUSES:
            break
        reached = one.end
    joined = [
        bool(telling.said_between(one[0].start, two[0].end) & set(telling.words.joining))
        for one, two in pairwise(notes)
    ]
    return notes if joined == [True] else []


def _voices(last: Step, over: list[tuple[Instruction, Fret, Strings]]) -> tuple[Voice, ...]:
    """The pair as it is told over; none where its strings show that it is another one."""
    if not over:
        return ()
    named = [strings for _, _, strings in over if strings]
    if not named:
        told_over = zip(last.voices, over, strict=True)
        return tuple(replace(voice, fret=fret) for voice, (_, fret, _) in told_over)
    of_last = {string for voice in last.voices for string in voice.named}
    if len(named) != len(over) or not of_last & {string for strings in named for string in strings}:
        return ()
    return tuple(Voice(fret, strings) for _, fret, strings in over)


def said_twice(telling: Telling, said: Instruction) -> bool:
    """ "To nine. Eight, eight! Sorry.": what is said twice stands in place of what it follows."""
    if len(telling.steps) < 3 or not _pauses(telling, said.end) or not telling.near(said, SAID_SINCE):
        return False
    slip, one, two = telling.steps[-3:]
    plain = all(step.how == "pick" and len(step.voices) == 1 and not step.again for step in (one, two))
    alike = one.frets == two.frets != slip.frets and not one.voices[0].named and len(slip.voices) == 1
    if not (plain and alike and one.start - slip.end <= 1 and two.start - one.end <= 1):
        return False
    if "x" in (*slip.frets, *one.frets) or abs(int(slip.frets[0]) - int(one.frets[0])) > NEAR_BY:
        return False
    voice = replace(slip.voices[0], fret=one.frets[0])
    telling.steps[-3:] = [replace(slip, voices=(voice,), corrected=told(slip), end=two.end)]
    return True


def drop_echo(telling: Telling) -> None:
    """ "Up to seven. Seven? No, nine": the slip, wondered at, was no second note."""
    slip, echo = telling.last(2), telling.last()
    if slip is None or echo is None or slip.frets != echo.frets or len(echo.voices) != 1:
        return
    alone = telling.sentences.start(echo.sentence) == echo.start and echo.sentence > slip.sentence
    if alone and echo.how == "pick" and not echo.voices[0].named and echo.start - slip.end <= 1:
        telling.steps.pop()
