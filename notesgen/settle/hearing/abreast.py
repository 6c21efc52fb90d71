"""Strings struck as one for a stretch: the frets that follow are dealt out to them, one after the other.

"Two strings at a time, G and B: 5 and 5, 7 and 6, then 8." A stretch begins where strings are named as struck
together before their frets, and ends where one string is named alone. A fret that no second one joins lies
across all of them.
"""

from __future__ import annotations

from itertools import takewhile

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.returning import string_of_that
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.hearing.voices import is_pinch
from notesgen.settle.step import Abreast, Step, Strings, Voice
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

MOVES = "moves"  # the slot "side" of a string whose voice moves on: "the B string walks down"
ALL = "all"  # the slot "side" of the fret that several strings share
SAID_WITHIN = 1  # sentences between "two at a time" and the names of the strings
GOES_ON = 2  # sentences without a stroke after which a stretch is over
ASTRAY = 2  # single notes in a row after which nothing is struck as one any more
PAIR = 2  # voices of a stroke on two strings
FRETS = ("fret", "from")  # slots that hold the fret of a note struck anew
AROUND = 4  # items around strings within which it is said that they are struck so all the time
NEXT_TO = 1  # items between the frets of one stroke


def announce(telling: Telling, strings: tuple[Strings, ...], at: int, lasts: bool = False) -> None:
    """From item `at` on these strings are struck as one."""
    if len(set(strings)) > 1 and all(strings):
        telling.abreast = Abreast(strings, at, len(telling.sections), lasts)
        telling.together_at = -1


def is_for_good(telling: Telling, said: Instruction) -> bool:
    """Whether words in the clause around the instruction say that strings are struck as one all the time."""
    around = {
        *telling.said_between(max(said.start - AROUND, telling.heard_until), said.start),
        *telling.said_between(said.end, said.end + AROUND),
        *telling.said_between(said.start, said.end),
    }
    return bool(around & {*telling.words.for_good})


def says_as_one(telling: Telling, said: Instruction) -> bool:
    """Whether strings that share a fret are struck as one, and so stay a pair: "together at 5, then at 7"."""
    last, start = telling.last(), telling.sentences.start(telling.sentences.of(said.start))
    since = max(start, last.end) if last is not None and last.end <= said.start else start
    return bool(telling.said_between(since, said.end) & {*telling.words.as_one, *telling.words.at_one_time})


def are_barred(telling: Telling, said: Instruction) -> bool:
    """Whether strings were said to be barred, so that each fret is on all of them: "barred double stops"."""
    at = telling.together_at
    if at < 0 or said.start - at > AROUND or len(said.all("string")) != 1:
        return False
    return bool(telling.said_between(at, said.start) & {*telling.words.barred})


def spread(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> list[Fret]:
    """The frets, each for all the strings that are named with it: "3 on the A, 5 on the D and G"."""
    codes = said.all("string")
    if len(frets) < PAIR or len(codes) != len(frets) or len(strings) <= len(frets):
        return frets
    spread = [
        fret
        for fret, code in zip(frets, codes, strict=True)
        for _ in telling.names.resolve(str(code), telling.last_strings())
    ]
    return spread if len(spread) == len(strings) else frets


def leads_pair(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether one voice of the pair moves, and the strokes that come are told from it: "seven and five"."""
    last, coming = telling.last(), telling.coming
    if last is None or coming is None or len(last.voices) != PAIR or len(strings) != 1:
        return False
    others = [voice.named for voice in last.voices if not {*voice.named} & {*strings[0]}]
    joined = [one for one in telling.following[:2] if one.kind == "note" and not one.all("string")]
    if len(others) != 1 or len(joined) != PAIR or joined[1].start != joined[0].end:
        return False
    if telling.items[joined[1].start].text not in telling.words.joining:
        return False
    announce(telling, (strings[0], others[0]), said.start)
    return True


def announced_before(telling: Telling, said: Instruction) -> bool:
    """Whether "two at a time" was just said, with no note since, and these are the strings that it is of."""
    if telling.together_at < 0:
        return False
    last, apart = telling.last(), telling.sentences.of(said.start) - telling.sentences.of(telling.together_at)
    return apart <= SAID_WITHIN and (last is None or last.start < telling.together_at)


def in_force(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The strings struck as one at this place of the talk; () where there are none."""
    row = telling.abreast
    if row.section != len(telling.sections) or any(cue.at > row.at for cue in telling.recaps[-1:]):
        return ()
    naming = telling.namings[-1] if telling.namings else None
    if naming is not None and naming.at > row.at and len(naming.strings) == 1:
        return ()
    last = telling.last()
    since = telling.sentences.of(row.at)
    if last is not None and last.start >= row.at:
        if not _is_of_row(last, row.strings):
            return ()
        since = last.sentence
    return row.strings if telling.sentences.of(said.start) - since <= GOES_ON else ()


def announced(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The strings said to be struck as one, also where a note on one of them has been told since; or ()."""
    row = telling.abreast
    if row.section != len(telling.sections) or any(cue.at > row.at for cue in telling.recaps[-1:]):
        return ()
    since = telling.sentences.of(row.at)
    for back, step in enumerate(reversed(telling.steps)):
        if step.start < row.at or len(step.voices) > 1:
            since = max(since, step.sentence)
            break
        if back >= ASTRAY or any(voice.named and voice.named not in row.strings for voice in step.voices):
            return ()
    return row.strings if telling.sentences.of(said.start) - since <= GOES_ON else ()


def row_of_section(telling: Telling, count: int = PAIR) -> tuple[Strings, ...]:
    """The strings last named together or struck as one in this section, whatever was played since."""
    since = telling.sections[-1].end
    named = next((one for one in reversed(telling.namings) if len(one.strings) == count), None)
    struck = next((step for step in reversed(telling.steps) if len(step.voices) == count), None)
    told = named.at if named is not None and named.at >= since else -1
    if struck is not None and struck.start >= max(told, since):
        return tuple(voice.named for voice in struck.voices)
    return named.strings if named is not None and told >= 0 else ()


def _is_of_row(step: Step, strings: tuple[Strings, ...]) -> bool:
    """Whether the step lies on the strings of the row: on all, or on the first that is told of a stroke."""
    named = [voice.named for voice in step.voices]
    if len(named) > 1:
        return set(named) <= set(strings)
    return step.closes and step.how == "pick" and named[0] in strings


def named_alone(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The one string named by itself since the last note, in the sentence of the instruction; else ()."""
    naming, last = telling.namings[-1] if telling.namings else None, telling.last()
    if naming is None or len(naming.strings) != 1 or naming.sentence != telling.sentences.of(said.start):
        return ()
    return naming.strings if last is None or last.start < naming.at else ()


def deals(telling: Telling, said: Instruction, fret: Fret) -> bool:
    """Lays a bare fret on the strings that wait for it: on the next one of the stroke begun, or on all."""
    if _completes(telling, said):
        last = telling.steps[-1]
        at = telling.dealt
        voices = (*last.voices[:at], replace(last.voices[at], fret=fret), *last.voices[at + 1 :])
        telling.change_last(voices=voices, end=said.end)
        telling.dealt += 1
        telling.pair_open = -1 if telling.dealt == len(voices) else telling.pair_open
        telling.fold_retold()
        if telling.dealt == len(voices):
            _fold_said_over(telling)
        return True
    struck = _struck_before(telling, said)
    row, size = _told_at_once(telling, said) if struck else [], len(struck)
    grouped = bool(struck) and _comes_in_groups(telling, row, size)
    strings = _opened_here(telling, said) or in_force(telling, said) or (struck if grouped else ())
    if not strings or _leads_back(telling, said, fret, strings):
        return False
    other = _waits_for(telling, said, strings)
    if other:
        telling.change_last(voices=(telling.steps[-1].voices[0], Voice(fret, other)), end=said.end)
        telling.fold_retold()
        return True
    telling.folding = is_plural(telling, said) or not (grouped or _is_joined_next(telling, said))
    telling.add(said, [Voice(fret, one) for one in strings])
    if not is_plural(telling, said):
        begin(telling)
    if grouped:
        telling.dealt_until = row[size - 1].end
    return True


def _leads_back(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Whether a lone fret was told before on another string: "3 on the low E, D and G, and back to the 3"."""
    back = string_of_that(telling, said, [fret])
    elsewhere = bool(back) and not any({*back} & {*one} for one in strings)
    return elsewhere and not _is_joined_next(telling, said)


def takes_source(telling: Telling, said: Instruction, fret: Fret) -> bool:
    """Whether the fret from which a slide goes is the next of the stroke: "8 and 8 and you slide that up"."""
    slot = slot_of(said, "from")
    told = replace(said, kind="note", slots=(replace(slot, name="fret"),), end=slot.end)
    return _completes(telling, told) and deals(telling, told, fret)


def _struck_before(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The strings of the stroke told last, or those that are always struck as one; () where a string was
    named since.
    """
    last, naming, row = telling.last(), telling.named_since(), telling.abreast
    if telling.shape or naming is not None or telling.correcting is not None:
        return ()
    if row.lasts and row.section == len(telling.sections) and not _is_astray(telling, row.at):
        return row.strings
    if last is None or len(last.voices) < PAIR or last.section != len(telling.sections):
        return ()
    if is_pinch(last, telling.names.count):
        return ()
    named = tuple(voice.named for voice in last.voices)
    near = telling.near(said, GOES_ON) and telling.rooted.section != len(telling.sections)
    return named if near and all(named) else ()


def _is_astray(telling: Telling, since: int) -> bool:
    """Whether single notes in a row have been told since item `since`, some on a string that was named."""
    row = list(takewhile(lambda step: step.start >= since and len(step.voices) == 1, reversed(telling.steps)))
    return len(row) >= ASTRAY and any(step.voices[0].named for step in row)


def _comes_in_groups(telling: Telling, row: list[Instruction], size: int) -> bool:
    """Whether the row of a clause has one bare fret for each string, or so several times: "then seven nine".

    A comma between the frets of one stroke leaves it open, unless both are the same: "9, 9".
    """
    if len(row) % size or len(row) < size:
        return False
    inside = [one for at, one in enumerate(row) if at % size]
    parted = [one for one in inside if telling.items[one.start].before > Break.NONE]
    linked = [one for one in row[1:] if telling.items[one.start].text in telling.words.joining]
    if size > PAIR and linked:
        return False
    frets = {slot.value for one in row for slot in one.slots if slot.name in FRETS}
    return not parted or (size == PAIR and len(frets) == 1)


def _told_at_once(telling: Telling, said: Instruction) -> list[Instruction]:
    """The bare fret and those that follow it in its clause; none where a string is told with one of them."""
    row = [said]
    for one in telling.following:
        fret = next((slot for slot in one.slots if slot.name in FRETS), None)
        if fret is None or one.start - row[-1].end > 0 or one.kind not in ("note", "slide"):
            break
        if _is_parted(telling, row[-1].end, fret.start):
            break
        if one.all("string") or len(frets_of(one, fret.name)) != 1:
            return []
        row.append(one)
        if fret.name == "from":
            break
    return row


def _is_parted(telling: Telling, start: int, end: int) -> bool:
    """Whether a sentence ends between two frets, or the words move on."""
    between = telling.items[start : end + 1]
    moved = {item.text for item in between} & {*telling.words.turning_to}
    return bool(moved) or any(item.before >= Break.HARD for item in between)


def _is_joined_next(telling: Telling, said: Instruction) -> bool:
    """Whether a bare fret for the next string follows at once: "so five and four"."""
    coming = telling.coming
    if coming is None or coming.start != said.end or coming.all("string") or not coming.all("fret"):
        return False
    return telling.items[coming.start].text in telling.words.joining


def is_plural(telling: Telling, said: Instruction) -> bool:
    """Whether the fret is named in the plural, "the sevens": both strings at that fret."""
    if not said.all("fret"):
        return False
    slot = slot_of(said, "fret")
    return slot.end > slot.start and telling.items[slot.end - 1].text.endswith("s")


def says_over(telling: Telling, said: Instruction, fret: Fret) -> bool:
    """Whether the frets of a stroke told in the plural are told one by one: "the sevens, seven and seven"."""
    last = telling.last()
    if last is None or len(last.voices) < 2 or set(last.frets) != {fret} or said.start - last.end > NEXT_TO:
        return False
    told = [item.text for item in telling.items[last.start : last.end]]
    between = telling.said_between(last.end, said.end + 1) & {*telling.words.moving_on, *telling.words.again}
    if between or not any(word.endswith("s") and word in telling.numbers for word in told):
        return False
    if is_plural(telling, said) or not (_is_joined_next(telling, said) or told[-1] in telling.numbers):
        return False
    telling.change_last(end=said.end)
    return True


def _fold_said_over(telling: Telling) -> None:
    """Takes back a stroke that only sums up the one before: "5 on the D with 4 on the G, five and four"."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or set(last.voices) != set(before.voices) or last.how != before.how:
        return
    words = telling.words
    lead = telling.said_between(before.end, last.start + 2)
    new = {*words.moving_on, *words.again, *words.joining, *words.striking}
    bare = telling.numbers | {*words.joining, *words.open}
    summed = not telling.said_between(before.start, before.end) <= bare
    if summed and lead & {*words.summing_up, *words.pointing, *words.settling} and not lead & new:
        telling.steps.pop()
        telling.change_last(end=last.end)


def begin(telling: Telling) -> None:
    """The stroke told last has the fret of its first string on all of them: the others may be told yet."""
    telling.pair_open, telling.dealt = len(telling.steps), 1


def spoken_singly(telling: Telling, said: Instruction) -> tuple[Instruction, ...]:
    """A row of bare frets, one instruction each, where they are to be dealt out; else ().

    A string in front of the row may be that of the note before, and is told with it then: "4 on the G 5 5".
    """
    frets = [slot for slot in said.slots if slot.name == "fret"]
    if not in_force(telling, said) or len(frets) < 2 or (said.all("string") and not _closes(telling, said)):
        return ()
    return tuple(replace(said, slots=(slot,), start=slot.start, end=slot.end) for slot in frets)


def _closes(telling: Telling, said: Instruction) -> bool:
    """Whether the string in front of a row is that of the stroke just completed, no pause between."""
    last, strings = telling.last(), telling.strings_of(said)
    if last is None or len(last.voices) < 2 or last.end != said.start or len(strings) != 1:
        return False
    return telling.items[said.start].before == Break.NONE and last.voices[-1].named == strings[0]


def _waits_for(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> Strings:
    """The other string of the pair, where a note on the one has just been told: "3 on the E and 4"."""
    last = telling.last()
    if last is None or len(strings) != 2 or len(last.voices) > 1 or said.start - last.end > NEXT_TO:
        return ()
    if telling.items[said.start].text not in telling.words.joining or not last.voices[0].named:
        return ()
    others = [one for one in strings if not set(one) & set(last.voices[0].named)]
    return others[0] if len(others) == 1 else ()


def _opened_here(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The strings named as one in this very sentence, where this is the first fret for them."""
    naming, last = telling.namings[-1] if telling.namings else None, telling.last()
    if naming is None or len(naming.strings) < 2 or naming.sentence != telling.sentences.of(said.start):
        return ()
    return naming.strings if last is None or last.start < naming.at else ()


def _completes(telling: Telling, said: Instruction) -> bool:
    """Whether the fret is that of the next string of the stroke begun: "7 and 6", "five five"."""
    last = telling.last()
    if telling.pair_open != len(telling.steps) or last is None or said.start - last.end > NEXT_TO:
        return False
    if telling.rooted.section == len(telling.sections) or is_plural(telling, said):
        return False
    moved = {*telling.words.moving_on, *telling.words.ways_over, *telling.words.going_back}
    if telling.dealt >= len(last.voices) or telling.said_between(last.end, said.end) & moved:
        return False
    if said.start < telling.dealt_until:
        return True
    if any(item.before >= Break.HARD for item in telling.items[last.end : said.start + 1]):
        return False
    if telling.items[said.start].text in telling.words.joining:
        return True
    pause = telling.items[said.start].before
    return pause == Break.NONE or (pause == Break.SOFT and _comes_out_even(telling, said, len(last.voices)))


def _comes_out_even(telling: Telling, said: Instruction, size: int) -> bool:
    """Whether the row of frets that goes on here has one for each string: "7, 8, 5, 6", but not "7, 5, 4"."""
    row = takewhile(lambda one: _goes_on(telling, one), telling.following)
    return in_force(telling, said) != () and (2 + sum(1 for _ in row)) % size == 0


def _goes_on(telling: Telling, said: Instruction) -> bool:
    """Whether the instruction is one more bare fret of a row that nothing but commas parts."""
    bare = said.kind == "note" and not said.all("string") and len(frets_of(said, "fret")) == 1
    first = telling.items[said.start]
    return bare and first.before < Break.HARD and first.text not in telling.words.moving_on
