"""How far back a repair reaches: one note, the run that is told over, or a slip already put right.

Speakers go back to where the trouble began and tell it over from there (Levelt 1983, "Monitoring and
self-repair in speech"): the frets that a repair begins with show where that was.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, Fret, How
from notesgen.settle.hearing.corrections import told
from notesgen.settle.hearing.counts import strike_again, strokes
from notesgen.settle.hearing.kinds import PLAYED
from notesgen.settle.hearing.scratched import scratched
from notesgen.settle.hearing.slips import drop_echo, hesitates, names_a_string
from notesgen.settle.hearing.slots import frets_of, named_at, slot_of
from notesgen.settle.hearing.telling import CORRECTION_REACH, LOOK_BACK, Telling
from notesgen.settle.step import Step, Strings
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

APART = 2  # items between the frets of one repair
AT_ONCE = 8  # items within which a correction follows its slip, unless the repair shows what it replaces
EXCUSED = 16  # items of excuses and jokes that may stand between a correction and its repair
NEAR = 2  # sentences within which a note is put right by its place
A_REMARK = 2  # words from which what follows a correction at once is talk, and "no sir" is none
LONGEST = 8  # notes that a repair tells over
REPLACED_BY = 4  # instructions among which a string stands that replaces one taken back
EXCUSES = frozenset({"correction", "frame"})  # what may stand before it: "sorry, not that one, the wrong one"
FRET_SLOTS = ("fret", "from", "to", "via")


class Repair(Struct, frozen=True):
    """What is told after a correction in one breath: its frets and first string, from item `start` to `end`.

    `onward` tells that "then" leads to it, `counted` that a count of strokes stands right behind it; `told`
    are the instructions that tell it.
    """

    start: int
    end: int
    frets: tuple[Fret, ...] = ()
    named: Strings = ()
    onward: bool = False
    counted: bool = False
    told: tuple[Instruction, ...] = ()


def open_repair(telling: Telling, said: Instruction, following: Sequence[Instruction]) -> None:
    """Makes ready for the repair that follows the correction: the notes that it replaces are its slips."""
    repair = _repair(telling, said, following)
    drop_echo(telling)
    last, before = telling.last(), telling.last(2)
    if last is None or _puts_earlier_right(telling, said, repair):
        return
    if contrasts(telling, said) or not _answers(telling, said, last, repair):
        return
    whole = scratched(telling, said, repair.told)
    if last.corrected and not repair.frets and any(one.kind in PLAYED for one in following[:1]):
        return  # "no, 8 on the B, sorry. So the middle finger on the G": excuses a repair that is made
    if repair.frets[:1] == last.frets and not whole:
        if last.corrected:
            return
        if before is not None and _put_right_at_once(before, last):
            telling.steps.pop()
    telling.correcting = replace(said, end=max(said.end, repair.start))
    back = max(whole, _told_over(telling, last, repair.frets))
    if back > 1:
        telling.slips = telling.steps[-back:]
        telling.slips_until = repair.end
        del telling.steps[-back:]
    elif repair.frets and not last.corrected:
        struck = strokes(telling)
        telling.strokes_due = 1 if repair.counted else struck
        del telling.steps[len(telling.steps) - struck + 1 :]


def _breaks_off(telling: Telling, said: Instruction) -> bool:
    """Whether the fret just told was broken off: "six on the, seven on the B", "ten, actually eleven"."""
    last = telling.last()
    if last is None or said.kind not in PLAYED or telling.correcting is not None or not telling.near(said, 0):
        return False
    if hesitates(telling, said, last):
        return True
    dangling = [item.text for item in telling.items[last.end : said.start]]
    if len(dangling) == 1 and dangling[0] in telling.words.second_thoughts:
        return True
    plain = len(last.voices) == 1 and not last.voices[0].named and last.how == "pick"
    ends = dangling[:1] and dangling[0] in telling.words.locating and dangling[-1] in telling.words.article
    return bool(plain and ends and len(dangling) == APART)


def open_broken_off(telling: Telling, said: Instruction) -> None:
    """Makes ready for the note that replaces one that was broken off, if this is one."""
    if not _breaks_off(telling, said):
        return
    term = replace(said, kind="correction", slots=(), end=said.start)
    open_repair(telling, term, (said, *telling.following))


def strike_as_the_slip(telling: Telling) -> None:
    """The repair is struck as often as the slip that it replaces."""
    due, telling.strokes_due = telling.strokes_due, 1
    if due > 1:
        strike_again(telling, due, "")


def take_back_string(telling: Telling, said: Instruction) -> None:
    """Takes back the string just named, and the fret before it where the repair tells that over as well."""
    if contrasts(telling, said) or not names_a_string(telling.following[:REPLACED_BY]):
        return
    naming, last = telling.namings.pop(), telling.last()
    telling.withdrawn = f"string {naming.strings[0][0]}"
    repair = _repair(telling, said, telling.following)
    if last is None or repair.frets[:1] != last.frets or last.voices[0].named:
        return
    if naming.at - last.end <= APART + 1 and naming.sentence == last.sentence and not last.corrected:
        telling.change_last(voices=(replace(last.voices[0], named=naming.strings[0]), *last.voices[1:]))
        telling.correcting = replace(said, end=max(said.end, repair.start))


def takes_back_technique(telling: Telling, said: Instruction) -> bool:
    """Whether only the technique begun is taken back: "then hammer on to, I mean, pull off to 5"."""
    last, following = telling.last(), telling.following[:1]
    if last is None or not any(one.kind in LEGATO for one in following):
        return False
    begun = _technique_begun(telling, said, last)
    telling.withdrawn = begun or telling.withdrawn
    return bool(begun)


def _technique_begun(telling: Telling, said: Instruction, last: Step) -> str:
    """The technique whose word stands between the last note and the correction, with no fret of its own."""
    begun, words = telling.preceding, telling.words
    if begun and begun.kind == "how" and not begun.all("to") and begun.start >= last.end:
        how = begun.text("how")
        return how if how in LEGATO and said.start - begun.end <= APART else ""
    if begun and begun.kind in LEGATO and begun.start == last.start and last.how == "pick":
        return begun.kind
    idle = {*words.turning_to, *words.joining}
    between = [item.text for item in telling.items[last.end : said.start] if item.text not in idle]
    if not 0 < len(between) <= APART or between[0] not in {*words.sliding, *words.hammering, *words.pulling}:
        return ""
    return between[0]


def only_begun(telling: Telling, said: Instruction) -> Instruction:
    """ "10 hammer, I mean slide to 13": the fret where a technique begins that is taken back at once."""
    if said.kind not in LEGATO or said.all("from") or len(telling.following) < 2:
        return said
    term, over = telling.following[:2]
    if term.kind != "correction" or term.start != said.end or over.kind not in LEGATO or over.all("from"):
        return said
    words, lead = telling.words, telling.said_between(said.start, named_at(said, "to"))
    if lead & {*words.sliding, *words.hammering, *words.pulling} or len(frets_of(said, "to")) != 1:
        return said
    slots = tuple(replace(slot, name="fret") if slot.name == "to" else slot for slot in said.slots)
    return replace(said, kind="note", end=slot_of(said, "to").end, slots=slots)


def puts_technique_right(telling: Telling, said: Instruction) -> bool:
    """Whether another way to play the last note replaces the one told: "hammer to 7, I mean slide"."""
    last, before, how = telling.last(), telling.last(2), said.text("how")
    if not how or last is None or not telling.near(said, 1):
        return False
    led = before is not None and before.start == last.start and last.how == "pick" and how in LEGATO
    if last.how not in {*LEGATO, "bend"} and not led:
        return False
    if last.how != how:
        slip = last.how if last.how != "pick" else ""
        telling.change_last(how=cast(How, how), corrected=slip or last.corrected, bend=None)
    return True


def contrasts(telling: Telling, said: Instruction) -> bool:
    """Whether what is denied was never told: "not the 6, the 8" puts nothing right."""
    last, denied = telling.last(), said.whole("what")
    if denied is not None:
        return all(denied not in step.frets for step in telling.steps[-LOOK_BACK:])
    if not said.text("what"):
        return False
    strings = {string for one in telling.strings_of(said, "what") for string in one}
    named = {string for voice in last.voices for string in voice.named} if last else set()
    if naming := telling.named_since():
        named |= {string for one in naming.strings for string in one}
    return bool(named) and not strings & named


def _repair(telling: Telling, said: Instruction, following: Sequence[Instruction]) -> Repair:
    """What is told after the correction; only excuses and talk stand before it."""
    repair = Repair(said.end, said.end)
    for one in following[:LONGEST]:
        reach = APART if repair.frets else EXCUSED
        if one.start - repair.end > reach:
            break
        named = one.kind == "letter" and one.start - repair.end <= APART  # "it's the B, so B string, 12"
        if (one.kind in EXCUSES or named) and not repair.frets:
            repair = replace(repair, end=one.end)
            continue
        more = tuple(fret for slot in FRET_SLOTS for fret in frets_of(one, slot))
        if not more or one.kind not in PLAYED:
            return replace(repair, counted=one.kind == "count" and bool(repair.frets))
        if not repair.frets:
            lead = telling.said_between(said.end, max(named_at(one, *FRET_SLOTS), one.start + 1))
            first = telling.strings_of(one)[:1]
            repair = replace(
                repair,
                start=one.start,
                named=first[0] if first else (),
                onward=bool(lead & {*telling.words.moving_on}),
            )
        repair = replace(repair, frets=repair.frets + more, end=one.end, told=(*repair.told, one))
    return repair


def _answers(telling: Telling, said: Instruction, last: Step, repair: Repair) -> bool:
    """Whether the repair is one: it follows at once, or it shows by its fret or string what it replaces."""
    close = said.start - last.end <= AT_ONCE
    if not repair.frets:
        return close
    idle = _is_talk(telling, said, repair)
    if close and repair.start - said.end <= CORRECTION_REACH and not idle and not repair.onward:
        return True
    led = telling.said_between(last.start - 1, last.start + 1) & set(telling.words.moving_on)
    if repair.onward and not led:
        return False
    if _told_over(telling, last, repair.frets) > 1 or (close and _is_told_alike(telling, last, repair)):
        return True
    alike, same_string = repair.frets[:1] == last.frets, set(repair.named) & set(last.voices[0].named)
    return bool(repair.named) and alike != bool(same_string) and not (idle and same_string)


def _is_told_alike(telling: Telling, last: Step, repair: Repair) -> bool:
    """Whether the repair is in the words of the slip: "the fourth fret, no, it jars, the first fret"."""
    if telling.sentences.of(repair.start) != last.sentence or last.corrected:
        return False
    slip, over = (
        [item.text for item in telling.items[start:end] if item.text not in telling.numbers]
        for start, end in ((last.start, last.end), (repair.start, repair.end))
    )
    return telling.words.fret[0] in over and slip[-len(over) :] == over


def _is_talk(telling: Telling, said: Instruction, repair: Repair) -> bool:
    """Whether the words of the correction only begin some talk: "no more than that", "sorry for"."""
    known = {*telling.words.mild, *telling.words.light}
    if telling.said_between(said.start, said.end) - known or said.end >= repair.start:
        return False
    after = telling.items[said.end : repair.start]
    spoken = [item for item in after if item.text not in known]
    return len(spoken) >= A_REMARK and spoken[0] is after[0] and after[0].before == Break.NONE


def _puts_earlier_right(telling: Telling, said: Instruction, repair: Repair) -> bool:
    """ "I said the fourth fret, it's the fifth": a note told before others is put right where it stands."""
    slip, last = said.whole("what"), telling.steps[-1]
    if slip is None or slip in last.frets or len(repair.frets) != 1 or repair.onward:
        return False
    if repair.start - said.end > CORRECTION_REACH or repair.frets == (slip,):
        return False
    for back in range(2, min(LOOK_BACK, len(telling.steps)) + 1):
        step = telling.steps[-back]
        if step.frets == (slip,) and step.section == last.section:
            voices = (replace(step.voices[0], fret=repair.frets[0]),)
            telling.steps[-back] = replace(step, voices=voices, corrected=told(step))
            telling.not_played_until = repair.end
            return True
    return False


def _put_right_at_once(slip: Step, last: Step) -> bool:
    """Whether "10, 12" were a slip and its repair in one breath."""
    return last.start <= slip.end and last.how in ("pick", slip.how) and not last.voices[0].named


def _told_over(telling: Telling, last: Step, repair: tuple[Fret, ...]) -> int:
    """How many of the last notes the repair tells over; at most as many as it has itself."""
    run: list[Step] = []
    for step in reversed(telling.steps):
        if len(step.voices) > 1 or last.sentence - step.sentence > 1 or (run and _opens(run[-1], step)):
            break
        run.append(step)
    for back in range(2, min(len(repair), len(run)) + 1):
        if run[back - 1].frets == repair[:1]:
            return back
    return 1


def _opens(step: Step, before: Step) -> bool:
    """Whether the step begins a run: it names a string that the one before it did not."""
    return bool(step.voices[0].named) and step.voices[0].named != before.voices[0].named


def put_right_by_place(telling: Telling, said: Instruction) -> None:
    """ "The second one should be 7": a note of the last sentence is put right, told by its place."""
    run = telling.trailing()
    fret, nth = said.whole("fret"), said.whole("nth")
    back = 1 if nth is None else run - nth + 1
    if fret is None or not telling.near(said, NEAR) or not 1 <= back <= run:
        return
    step = telling.steps[-back]
    if len(step.voices) == 1 and step.frets != (fret,):
        voices = (replace(step.voices[0], fret=fret),)
        telling.steps[-back] = replace(step, voices=voices, corrected=told(step))
