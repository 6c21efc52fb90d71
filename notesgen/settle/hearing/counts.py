"""How often: strokes of the last note, and passages played again."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice, takewhile

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, Fret
from notesgen.settle.hearing import nicknames
from notesgen.settle.hearing.damped import SUNG, strikes_damped
from notesgen.settle.hearing.few_repeated import is_of_one
from notesgen.settle.hearing.passages import passage
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.slurred_again import BY_NAME, counts_slur, strikes_slur_over
from notesgen.settle.hearing.spelled_chord import gather_spelled
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.hearing.voice_by_voice import introduces
from notesgen.settle.step import Step, Strings
from notesgen.settle.strings import SAME
from notesgen.settle.told import Loop, read_count
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

OR = "or"  # the slot "side" of another number that would do
MIGHT = "might"  # ... of a count that may stand in place of the one before it
MORE = "more"  # the slot "side" of strokes besides those told
BARE_MORE = "bare more"  # ... of "then two more", which may count anything that follows
PINCH = "pinch"  # the slot "side" of "then pinch again"
FIRST = "first"  # the slot "side" of "the first one again"
LENGTHS = "lengths"  # the slot "side" of strokes counted by how long they are: "four eighth notes"
BRIEF = "brief"  # the slot "side" of a bare "and again"
NEAR = 2  # sentences back to which "three times" reaches
FAR = 12  # ... to which "it goes four times" reaches
AT_ONCE = 2  # items after a note within which a count without a verb speaks of it
A_PAIR = 2  # notes that "both" counts
A_RUN = 3  # notes from which "8 7 9, three times" speaks of the run, not of its last note


def count(telling: Telling, said: Instruction) -> None:
    """The last note is struck so often, or the string that was just damped."""
    gather_spelled(telling, said)
    times, unsure = read_count(said.text("count"))
    last = telling.last()
    if said.text("side") == OR or (said.text("side") == MIGHT and last is not None and last.again):
        _leave_open(telling, said, times)
        return
    if any(strikes(telling, said, times, unsure) for strikes in (strikes_damped, nicknames.strikes)):
        return
    if last is None or not telling.near(said, NEAR) or _counts_others(telling, said, last):
        return
    if telling.correcting is not None and last.again and said.start - telling.correcting.end <= AT_ONCE:
        _put_right(telling, times, unsure)
        return
    if said.text("side") in (MORE, BARE_MORE):
        _strike_more(telling, said, last, times, unsure)
        return
    spoken = telling.said_between(said.start, said.end)
    if spoken & set(telling.words.each):
        if said.start - _spoken_until(telling, last) <= AT_ONCE:
            _strike_each(telling, times, telling.trailing())
        return
    if _is_of_both(telling, said, last):
        _strike_each(telling, times, A_PAIR)
        return
    if said.text("side") == SUNG and (said.start != last.end or telling.trailing() > 1 or last.again):
        return
    if _told_out(telling, said, times):
        return
    if said.text("side") == BY_NAME and counts_slur(telling, said, times):
        return
    if not _strikes(telling, said) and last.how in LEGATO and telling.trailing() >= A_RUN:
        repeat(telling, said)
        return
    if not unsure and _plays_slur(telling, said, last) and counts_slur(telling, said, times):
        return
    if not spoken & {*telling.words.striking, *telling.words.struck, *telling.words.strokes}:
        if said.start - _spoken_until(telling, last) > AT_ONCE:
            return
        if said.text("side") != SUNG and _speaks_of_the_run(telling, said, last):
            repeat(telling, said)
            return
    strike_again(telling, times, unsure)


def _strikes(telling: Telling, said: Instruction) -> bool:
    """Whether a verb strikes a note: "hit it twice", not "twice"."""
    return bool(telling.said_between(said.start, said.end) & set(telling.words.striking))


def _plays_slur(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether what is counted right behind a slur may be all of it: no verb strikes its last note."""
    return not _strikes(telling, said) and said.start - _spoken_until(telling, last) <= AT_ONCE


def _strike_more(telling: Telling, said: Instruction, last: Step, times: int, unsure: str) -> None:
    """The last note, or the slur that it ends, so often besides."""
    if said.text("side") == BARE_MORE and not _is_a_clause(telling, said, last):
        return
    if _plays_slur(telling, said, last) and strikes_slur_over(telling, said, times):
        return
    strike_again(telling, strokes(telling) + times, _more(strokes(telling), unsure))


def _put_right(telling: Telling, times: int, unsure: str) -> None:
    """Another count replaces the one that was just withdrawn."""
    telling.correcting = None
    struck = strokes(telling)
    del telling.steps[len(telling.steps) - max(0, struck - times) :]
    strike_again(telling, times, unsure)
    if struck != times:
        telling.change_last(corrected=f"{struck} strokes")


def _leave_open(telling: Telling, said: Instruction, times: int) -> None:
    """Another number would do for the strokes just counted: "three, or four if you like".

    Where none were counted it is another fret: "5 on the G, or 6 if you like".
    """
    before = telling.preceding
    if not telling.steps or not telling.near(said, 1) or strokes(telling) == times:
        return
    if strokes(telling) == 1 and not (before is not None and before.all("count")):
        telling.change_last(unsure_fret=times)
    else:
        few, many = sorted((strokes(telling), times))
        telling.change_last(unsure_count=f"{few} or {many}")


def _told_out(telling: Telling, said: Instruction, times: int) -> bool:
    """Whether the strokes that are counted were told one by one, "those" on whatever strings."""
    several = telling.said_between(said.start, said.end) & {*telling.words.pointing_at_several}
    told = [
        (step.frets, step.how, step.sentence, several or (step.voices, step.before))
        for step in telling.steps[-times - 1 :]
    ]
    return times > 1 and len({*told[-times:]}) == 1 and told.count(told[-1]) == times


def tallies(telling: Telling, said: Instruction, frets: Sequence[Fret], strings: Sequence[Strings]) -> bool:
    """Whether "three sevens" only sums up what was told one by one, on whatever strings."""
    times, _ = read_count(said.text("count"))
    told = telling.steps[-times:]
    alike = len(told) == times and all(step.frets == tuple(frets) for step in told)
    return times > 1 and not strings and alike and telling.near(said, 1)


def sums_up_strokes(
    telling: Telling, said: Instruction, frets: Sequence[Fret], strings: Sequence[Strings]
) -> bool:
    """Whether "that's four" sums up strokes that were sung or struck one by one."""
    last = telling.last()
    if last is None or strings or len(frets) != 1 or not last.again or not telling.near(said, 0):
        return False
    pointed = telling.said_between(said.start, slot_of(said, "fret").start) & set(telling.words.pointing)
    return bool(pointed) and strokes(telling) == frets[0] != last.frets[0]


def _spoken_until(telling: Telling, last: Step) -> int:
    """The item after the last note, its string, or words that only pointed back: "and that 9, twice"."""
    naming = telling.named_since()
    if naming and naming.at - last.end <= 1 and naming.strings == (last.voices[0].named or last.before,):
        return max(naming.end, telling.note_until)
    return max(last.end, telling.note_until)


def _speaks_of_the_run(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether a count without a verb is of all notes just told: "8 7 9, three times"; "7, 5. Twice."."""
    if telling.sentences.of(said.start) != last.sentence:
        return telling.trailing() > 1 and said.start == telling.sentences.start(last.sentence + 1)
    run = telling.trailing()
    if run < A_RUN or telling.has_own_string(last) or any(step.again for step in telling.steps[-run:]):
        return False  # "12, twice, then 10, three times": each note has a count of its own
    return not _is_of_last(telling, said)


def _is_of_last(telling: Telling, said: Instruction) -> bool:
    """Whether a count in a list is of its last note: the list goes on at once, or no pause parts the two."""
    if _goes_on(telling, said):
        return True
    sentence = telling.sentences.of(said.start)
    spoken = telling.items[telling.sentences.start(sentence) + 1 : said.end]
    paused = any(item.before > Break.NONE for item in spoken)
    return paused and telling.items[said.start].before == Break.NONE


def _goes_on(telling: Telling, said: Instruction) -> bool:
    """Whether the next note, or a string for the last one, comes at once."""
    coming = telling.coming
    if coming is None or telling.items[coming.start].text in telling.words.moving_on:
        return False
    return coming.start - said.end <= 1 and telling.sentences.of(coming.start) == telling.sentences.of(
        said.start
    )


def _is_of_both(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether "both of them twice" counts the two notes just told one after the other."""
    both = bool(telling.said_between(said.start, said.end) & set(telling.words.both))
    close = said.start - _spoken_until(telling, last) <= AT_ONCE
    return both and close and len(last.voices) == 1 and telling.trailing() >= A_PAIR and not last.again


def _strike_each(telling: Telling, times: int, many: int) -> None:
    """Each of so many of the last notes, so often."""
    run = telling.steps[len(telling.steps) - many :]
    del telling.steps[len(telling.steps) - len(run) :]
    for step in run:
        telling.steps.append(step)
        telling.steps += [replace(step, corrected="", again=True)] * (times - 1)


def _counts_others(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether no strokes are counted: lengths of many notes, or what does something itself: "four danced"."""
    if said.text("side") == LENGTHS and not is_of_one(telling, said, last):
        return True
    lead = telling.said_between(said.start, slot_of(said, "count").start)
    if lead - set(telling.words.joining) or telling.items[said.end - 1].text not in telling.words.struck:
        return False
    after = telling.items[said.end : said.end + 1]
    behind = [item.text for item in telling.items[said.end : said.end + 2]]
    if len(behind) == A_PAIR and behind[0] == behind[1]:
        return False  # sung: "four of those, diddle diddle"
    known = {*telling.words.after_fret, *telling.words.guitar_words, *telling.words.light}
    return any(item.before == Break.NONE and item.text not in known for item in after)


def _is_a_clause(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether nothing follows at once that is counted: "then two more.", not "then two more: 7, 9"."""
    if said.start - _spoken_until(telling, last) > AT_ONCE:
        return False
    after, coming = telling.items[said.end : said.end + 1], telling.coming
    if any(item.text in telling.words.moving_on for item in after):
        return True
    told = coming is not None and coming.start == said.end
    return not told and all(item.before > Break.NONE for item in after)


def again(telling: Telling, said: Instruction) -> None:
    """The last note once more; "and again" only right behind one that is no list to be told again."""
    last = telling.last()
    if said.text("side") in (FIRST, PINCH):
        _chord_again(telling, said)
        return
    telling.seams.append(said.start)
    same_breath = last is not None and said.start == last.end and telling.near(said, 0)
    same_breath = same_breath and not _is_told_over_next(telling, said)
    if said.text("side") == BRIEF and _leads_elsewhere(telling, said):
        return
    if said.text("side") == BRIEF and not same_breath:
        return
    if (
        said.text("side") == BRIEF
        and last
        and not (telling.has_own_string(last) or _is_no_list(telling, said))
    ):
        return
    if last is None or not telling.near(said, NEAR) or _strikes_moved(telling, said):
        return
    if introduces(telling, said):
        return
    if same_breath and not _strikes(telling, said) and strikes_slur_over(telling, said):
        return
    if not _tells_stroke(telling, said, last):
        telling.steps.append(replace(_struck_over(last), start=said.start, end=said.end))


def _is_told_over_next(telling: Telling, said: Instruction) -> bool:
    """Whether frets follow at once that tell over what was told: "then once more: five, seven"."""
    coming = telling.coming
    if coming is None or coming.start != said.end or coming.all("string") or not coming.all("fret"):
        return False
    led = telling.items[coming.start].text in {*telling.words.moving_on, *telling.words.joining}
    return not led and telling.sentences.of(coming.start) == telling.sentences.of(said.start)


def _leads_elsewhere(telling: Telling, said: Instruction) -> bool:
    """Whether what follows tells what comes again: "and again on the D, 9"; "and again the 9" of before."""
    coming, words = telling.coming, telling.words
    if coming is None or coming.start != said.end:
        return False
    if coming.kind == "dead":
        return True
    if not coming.all("fret"):
        return False
    if coming.all("string") and telling.items[coming.start].text in words.locating:
        return True
    return telling.items[coming.start].before == Break.NONE and _is_back(telling, frets_of(coming, "fret"))


def _is_back(telling: Telling, frets: Sequence[Fret]) -> bool:
    """Whether a lone fret was told shortly before, and is not that of the last note."""
    recent = [step.frets for step in telling.steps[-FAR:]]
    return len(frets) == 1 and tuple(frets) in recent and recent[-1] != tuple(frets)


def _tells_stroke(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether "I pick this one again" only tells that a note is struck, as the one before was slurred."""
    before = telling.last(2)
    speaks = bool(telling.said_between(said.start, said.end) & set(telling.words.speaker))
    slurred = before is not None and before.how in LEGATO and last.how == "pick"
    return speaks and slurred and _strikes(telling, said)


def _strikes_moved(telling: Telling, said: Instruction) -> bool:
    """Whether "and pluck it again" strikes a shape that was just moved, which is told already."""
    moved, last = telling.preceding, telling.last()
    if moved is None or last is None or moved.kind not in ("shift", "same") or last.how != "pick":
        return False
    struck = telling.said_between(said.start, said.end) & set(telling.words.striking)
    return said.start == moved.end and bool(struck)


def _is_no_list(telling: Telling, said: Instruction) -> bool:
    """Whether "and again" behind a note without a string is of that note: it is alone, and more comes."""
    bare = takewhile(
        lambda step: not step.voices[0].named, islice(reversed(telling.steps), telling.trailing())
    )
    close = telling.coming is not None and telling.coming.start == said.end
    return sum(1 for _ in bare) < A_RUN and close and _goes_on(telling, said)


def _chord_again(telling: Telling, said: Instruction) -> None:
    """The first chord or pair of the section, which may be spelled out behind it; or the pinch told last."""
    recent = [step for step in telling.steps[-FAR:] if step.section == len(telling.sections)]
    chords = [step for step in recent if len(step.voices) > 1 and "x" not in step.frets]
    if said.text("side") == FIRST:
        if chords:
            telling.add(said, chords[0].voices, origin="derived")
    elif not _follows(telling, said):
        if chords:
            telling.add(said, chords[-1].voices, origin="derived")
    else:
        telling.together_at = said.start
        telling.chord_at, telling.chord_voices = said.end, 2


def _follows(telling: Telling, said: Instruction) -> bool:
    """Whether the sentence goes on with notes or strings, and not with what comes then."""
    coming = telling.coming
    if coming is None or telling.sentences.of(coming.start) != telling.sentences.of(said.start):
        return False
    turned = telling.said_between(said.end, coming.start + 1) & {*telling.words.moving_on}
    return not turned and bool(coming.all("fret") or coming.all("string") or coming.all("letter"))


def repeat(telling: Telling, said: Instruction) -> None:
    """A passage is played so often in all; a lone note or pair is struck so often."""
    times, unsure = read_count(said.text("count"))
    whole = bool(telling.said_between(said.start, said.end) & set(telling.words.whole))
    places = passage(telling, whole)
    if not places or not (whole or telling.near(said, FAR)):
        return
    if len(places) == 1:
        strike_again(telling, times, unsure)
    elif times > 1:
        telling.seams.append(said.start)
        telling.loops.append(Loop(places[0], places[-1], times, unsure))


def strike_again(telling: Telling, times: int, unsure: str) -> None:
    """The last note, so often in all."""
    if unsure:
        telling.change_last(unsure_count=unsure)
    for _ in range(times - strokes(telling)):
        telling.steps.append(_struck_over(telling.steps[-1]))


def _struck_over(last: Step) -> Step:
    """The note struck once more: picked, where it was slurred before."""
    return replace(last, how="pick" if last.how in LEGATO else last.how, corrected="", again=True, by=SAME)


def strokes(telling: Telling) -> int:
    """How often the last note has been told in a row by now."""
    last = telling.steps[-1]
    struck = list(takewhile(lambda step: step.again and _is_stroke_of(last, step), reversed(telling.steps)))
    first = telling.last(len(struck) + 1)
    return len(struck) + (first is not None and (first is last or is_same_note(last, first)))


def _is_stroke_of(last: Step, step: Step) -> bool:
    return (step.frets, step.how) == (last.frets, last.how)


def is_same_note(last: Step, first: Step) -> bool:
    """Whether the strokes began with this one: at the same frets, and not on another string."""
    named, began = last.voices[0].named, first.voices[0].named
    return first.frets == last.frets and (not named or not began or bool({*named} & {*began}))


def _more(struck: int, unsure: str) -> str:
    """ "2 or 3" more strokes as strokes in all."""
    return " or ".join(str(struck + int(part)) for part in unsure.split(" or ")) if unsure else ""
