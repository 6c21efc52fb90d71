"""Single notes: picked, touched; new ones told from those that only point back."""

from __future__ import annotations

from itertools import groupby, pairwise, takewhile

from msgspec.structs import replace

from notesgen.lesson.model import Fret, How
from notesgen.settle.hearing import (
    abreast,
    counts,
    drones,
    duet,
    fingers,
    grips,
    names,
    nicknames,
    own_shapes,
    pairs,
    passed,
    picking,
    rooted,
    said_over,
    sliding_pairs,
    so_many,
    spelled_shape,
)
from notesgen.settle.hearing.corrections import corrected
from notesgen.settle.hearing.name_or_string import string_by_letter
from notesgen.settle.hearing.octaves import turn
from notesgen.settle.hearing.put_down import only_placed
from notesgen.settle.hearing.returning import string_of_that
from notesgen.settle.hearing.scopes import corrects_to_ordinal, names_voice, told_in_order
from notesgen.settle.hearing.slots import frets_of, marks_of, slot_of
from notesgen.settle.hearing.standing import is_elsewhere, is_spoken_of, is_the_slip, starts_from
from notesgen.settle.hearing.struck import pair_in_force
from notesgen.settle.hearing.telling import HARMONIC_FRETS, LOOK_BACK, Telling
from notesgen.settle.step import Strings, Voice
from notesgen.settle.strings import SAME
from notesgen.settle.told import read_count
from notesgen.speech.instructions import Instruction, SlotValue
from notesgen.speech.items import Break

PAIR = 2  # frets
RESTATED = 8  # items within which a corrected note is said over
SAME_FRET = "same fret"  # ... of the note before
ORDINAL = "ordinal"  # the slot "side" of a bare ordinal
SPOKEN_SINCE = 60  # items within which they were told
ORDINALS_BACK = 3  # notes back to which one told as an ordinal makes the next a fret
LONGEST_RUN = 12  # frets that one run of every fret may span
SPOKEN_OF = 4  # frets back to which a sentence that begins with "the 7" may speak


SPEAKS_OF = (
    names.speaks_of_told,
    drones.rings_on,
    rooted.spells_out,
    counts.tallies,
    passed.said_on_the_way,
    *said_over.SAYS_OVER,
    counts.sums_up_strokes,
    so_many.announces,
    spelled_shape.spells_moved,
)
"""What tells whether a fret and its string are only spoken of."""


TAKES = (names.gives_its_fret, fingers.spells_out, own_shapes.takes, drones.takes)
"""What takes a fret for a note that was named, a finger's place, the teacher's own shape, a voice held."""


def note(telling: Telling, said: Instruction) -> None:
    """Picked frets one after another, unless the words only point back or join a pair."""
    if any(done(telling, said) for done in (grips.pick_by_number, fingers.reaches, _is_no_fret, names_voice)):
        return
    if singly := abreast.spoken_singly(telling, said):
        for one in singly:
            note(telling, one)
        return
    if _starts_over(telling, said):
        telling.seams.append(said.start)
    strings = telling.strings_of(said := told_in_order(telling, said))
    frets = _frets_said_once(telling, said) or _same_fret(telling, said)
    called, strings = names.called_by(telling, said, frets, strings)
    own = string_by_letter(telling, said, frets, strings)
    if own or (strings and _opens_next(telling, said)):
        _one_by_one(telling, said, frets, own)
        telling.name_alone(said, strings)
        return
    if any(takes(telling, said, frets, strings) for takes in TAKES):
        return
    if not frets:
        frets, strings = names.fret_of_name(telling, said, strings)
    strings = names.sounding(telling, called, frets, strings)
    spoken_of = any(speaks(telling, said, frets, strings) for speaks in SPEAKS_OF)
    if spoken_of or only_placed(telling, said, frets):
        return
    strings = strings or _voice_named(telling, said, frets)
    if telling.correcting is not None and len(frets) == PAIR:
        frets = [fret for fret, _ in groupby(frets)]  # "no, 7, 7" says one fret over
    if _is_told(telling, said, frets, strings) or pairs.takes(telling, said, frets, strings):
        return
    if telling.shape and not strings and not said.text("side"):
        pairs.move_shape(telling, said, frets)
        return
    telling.shape = () if strings else telling.shape
    _restate(telling, said, frets, strings)
    if not strings and abreast.is_plural(telling, said):
        strings = pair_in_force(telling, said)
    if len(strings) > 1:
        pairs.group(telling, said, frets, strings)
    else:
        _one_by_one(telling, said, frets, strings)
    if called and len(frets) == 1:
        names.call_last(telling, said, called)


def _voice_named(telling: Telling, said: Instruction, frets: list[Fret]) -> tuple[Strings, ...]:
    """The string of the voice of a pair that is named in place of its string: "soprano six"."""
    if len(frets) != 1 or telling.rooted.section == len(telling.sections):
        return ()
    return duet.by_role(telling, said, pair_in_force(telling, said))


def _is_no_fret(telling: Telling, said: Instruction) -> bool:
    """Whether a bare ordinal tells a string: one put right, one that is picked, or none told as frets are."""
    if said.text("side") != ORDINAL:
        return False
    if corrects_to_ordinal(telling, said, said.whole("fret") or 0) or picking.rolls_on(telling, said):
        return True
    if _is_broken_off(telling, said):
        return True
    return not (_counts_ordinally(telling, said) or sliding_pairs.awaits_slide(telling, said))


def _is_broken_off(telling: Telling, said: Instruction) -> bool:
    """Whether an ordinal began a string that is told after a correction: "first, wait, second string: 6"."""
    terms = list(takewhile(lambda one: one.kind == "correction", telling.following))
    if not terms or terms[0].start != said.end:
        return False
    over = telling.following[len(terms) : len(terms) + 1]
    return any(
        one.all("string") and slot_of(one, "string").start < slot_of(one, "fret").start
        for one in over
        if one.kind == "note" and one.all("fret")
    )


def run(telling: Telling, said: Instruction) -> None:
    """Every fret up to one, from one that is said or from the note just told, which is not struck again."""
    strings, told = telling.strings_of(said), telling.last()
    first, last = said.whole("from"), said.whole("to")
    if first is None and told is not None and told.frets[0] != "x" and len(told.voices) == 1:
        first, strings = int(told.frets[0]), strings or (told.voices[0].named,)
    if first is None or last is None or abs(last - first) > LONGEST_RUN:
        return
    step = 1 if last >= first else -1
    stands = told is not None and told.frets == (first,) and telling.near(said, 1)
    for fret in range(first + step * stands, last + step, step):
        telling.add(said, [Voice(fret, strings[0] if strings else ())])


def _frets_said_once(telling: Telling, said: Instruction) -> list[Fret]:
    """The frets in the order said, without those begun and said over: "the seven, the seventh fret"."""
    slots = [slot for slot in said.slots if slot.name == "fret"]
    over = {one.start for one, two in pairwise(slots) if _says_over(telling, one, two)}
    kept = tuple(slot for slot in said.slots if slot.name != "fret" or slot.start not in over)
    return frets_of(replace(said, slots=kept), "fret")


def _says_over(telling: Telling, one: SlotValue, two: SlotValue) -> bool:
    """Whether two frets are one that is said over, side by side: "the 7, the 7", "open, nothing fretted"."""
    begun = all(telling.items[slot.start].text in telling.words.article for slot in (one, two))
    over = begun or telling.items[two.start].text in telling.words.nothing_else
    return over and one.value == two.value and one.end == two.start


def _one_by_one(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> None:
    times, unsure = read_count(said.text("count"))
    if said.text("side") == "lowest" and not strings:
        strings = (_muted_string(telling),)
    named = strings[0] if strings else turn(telling, frets) or string_of_that(telling, said, frets)
    if times > 1 and _counts_told(telling, said, frets, named):
        counts.strike_again(telling, times, unsure)
        return
    again, marks = _says_again(telling, said) or times > 1, nicknames.marks(telling, said)
    if strings and times == 1 and _only_last_is_on(telling, said, frets):
        for fret in frets[:-1]:
            telling.add(said, [Voice(fret)], marks=marks, by=SAME, again=again)
        frets = frets[-1:]
    how: How = "harmonic" if _touches_on(telling, said) else "pick"
    for fret in frets * times:
        telling.add(said, [Voice(fret, named)], how, marks=marks, unsure_count=unsure, again=again)


def _counts_told(telling: Telling, said: Instruction, frets: list[Fret], named: Strings) -> bool:
    """Whether the strokes are those of the open string just told: "open low E, and it's three chugs"."""
    last, words = telling.last(), telling.words
    if last is None or said.text("side") != "lowest" or last.voices != (Voice(0, named),):
        return False
    spoken = telling.said_between(last.end, said.end) & {*words.again, *words.moving_on}
    if spoken or frets != [0] or not telling.near(said, 1):
        return False
    telling.change_last(marks=tuple(dict.fromkeys((*last.marks, *marks_of(said)))))
    return True


def _opens_next(telling: Telling, said: Instruction) -> bool:
    """Whether the string behind the fret is that of the next one: "ninth fret, then 11th, on the B, 10th".

    So it is where a string stands in front of the list, a pause before this one, and a lone fret behind it.
    An open string stands as one: "then 4, then open G, then 2".
    """
    string, coming = slot_of(said, "string"), telling.coming
    frets = [slot for slot in said.slots if slot.name == "fret" and slot.start < slot.end]
    if coming is None or not frets or string.start < frets[-1].start or telling.relation_of(said):
        return False
    between = telling.items[frets[-1].end : string.start + 1]
    parted = any(item.before > Break.NONE for item in between)
    follows = coming.kind in ("note", "hammer-on", "pull-off") and not coming.all("string")
    at_once = coming.start == said.end == string.end
    close = telling.sentences.of(coming.start) == telling.sentences.of(said.start)
    return parted and follows and at_once and close and telling.is_led(said)


def _only_last_is_on(telling: Telling, said: Instruction, frets: list[Fret]) -> bool:
    """Whether the list goes on from a string named before it, up to its last fret: "7, and 5 on the A"."""
    slots = [slot for slot in said.slots if slot.name == "fret"]
    if len(frets) < 2 or len(slots) != len(frets) or slot_of(said, "string").start < slots[-1].start:
        return False
    links = {*telling.words.joining, *telling.words.moving_on}
    between = telling.items[slots[-2].end : slots[-1].start]
    parted = bool(between) and between[0].before > Break.NONE and between[0].text in links
    return parted and telling.is_led(said)


def _touches_on(telling: Telling, said: Instruction) -> bool:
    """Whether the note is a harmonic as the one before: "same fret on the B", "then at 7"."""
    last, frets = telling.last(), frets_of(said, "fret")
    if last is None or last.how != "harmonic":
        return False
    at = (
        telling.said_between(slot_of(said, "fret").start - 1, slot_of(said, "fret").start + 1)
        if frets
        else set()
    )
    listed = telling.near(said, 0) and {*frets} <= HARMONIC_FRETS and at & {*telling.words.at_a_fret}
    return said.text("side") == SAME_FRET or bool(listed)


def _same_fret(telling: Telling, said: Instruction) -> list[Fret]:
    """The fret of the note before, where "the same fret" stands for it, or that of its string once more."""
    last = telling.last()
    if last is None or said.text("side") != SAME_FRET or not (strings := telling.strings_of(said)):
        return []
    words = telling.said_between(last.end, said.end)
    held = [telling.hand[one[0]] for one in strings if len(one) == 1 and one[0] in telling.hand]
    return held[:1] if held and words & {*telling.words.again} else list(last.frets[:1])


def _muted_string(telling: Telling) -> Strings:
    """The string of the open notes last palm-muted, else last played, or the lowest."""
    opens = [step for step in telling.steps if step.frets == (0,) and step.voices[0].named]
    muted = [step for step in opens if "palm-mute" in step.marks]
    return (muted or opens)[-1].voices[0].named if opens else (telling.names.count,)


def _counts_ordinally(telling: Telling, said: Instruction) -> bool:
    """Whether a bare ordinal is a fret: as one of the notes just before, or all through the talk."""
    if telling.counts_frets and telling.steps and _is_by_itself(telling, said):
        return True
    led = telling.said_between(said.start, slot_of(said, "fret").start) & {*telling.words.reaching}
    if led and telling.near(said, 0) and _ends_there(telling, said):
        return True  # "5 on the D, up to the seventh"
    recent = telling.steps[-ORDINALS_BACK:]
    counted = any(telling.said_between(step.start, step.end) & telling.ordinals for step in recent)
    return counted and said.start - recent[-1].end <= SPOKEN_SINCE


def _is_by_itself(telling: Telling, said: Instruction) -> bool:
    """Whether the ordinal belongs to no word around it: not "my third", "the first one", "the first two"."""
    items, words, link = telling.items, telling.words, {*telling.words.joining, *telling.words.turning_to}
    begins = said.start == 0 or items[said.start].before >= Break.SOFT or items[said.start].text in link
    begins = begins or items[said.start - 1].text in {*link, *words.fret}
    return begins and _ends_there(telling, said)


def _ends_there(telling: Telling, said: Instruction) -> bool:
    """Whether no word follows to which an ordinal may belong: "the third string"."""
    words = telling.words
    goes_on = {*words.joining, *words.turning_to, *words.locating, *words.together_with, *words.again}
    following = telling.items[said.end : said.end + 1]
    return all(item.before >= Break.SOFT or item.text in goes_on for item in following)


def _says_again(telling: Telling, said: Instruction) -> bool:
    """Whether "again" or "another" stands right around the words; not that of "which is A again"."""
    before = telling.preceding
    of_name = before is not None and before.kind == "letter" and before.end == said.start
    start = said.start if of_name or telling.note_until == said.start else said.start - 1
    return bool(telling.said_between(start, said.end + 1) & set(telling.words.again))


def _starts_over(telling: Telling, said: Instruction) -> bool:
    """Whether the words begin with "and again": a run may be told over from its start."""
    first, second = (telling.items[at].text for at in (said.start, min(said.start + 1, said.end - 1)))
    return first in telling.words.joining and second in telling.words.again


def _settles_on(telling: Telling, said: Instruction, frets: list[Fret]) -> bool:
    """Whether "seven, eight, it's eight" settles on the note before: the one before that was a slip."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or telling.correcting is not None or not said.all("fret"):
        return False
    run = said.start == last.end and last.start in (before.start, before.end)
    alike = last.frets == tuple(frets) and not said.all("string") and before.frets != last.frets
    words = telling.said_between(said.start, slot_of(said, "fret").start)
    if not (run and alike and words & set(telling.words.settling)) or len(before.voices) > 1:
        return False
    del telling.steps[-2:]
    telling.steps.append(corrected(before, last))
    return True


def _restate(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> None:
    """Takes back a note just corrected when the next words say it over: "sorry, 15. 15 on the B"."""
    last = telling.last()
    if last is None or not last.corrected or len(last.voices) != 1 or last.frets != tuple(frets[:1]):
        return
    elsewhere = _on_new_string(telling) or is_elsewhere(strings, set(last.voices[0].named))
    if said.start - last.end <= RESTATED and not (elsewhere or _says_again(telling, said)):
        telling.restated = telling.steps.pop()


def _says_group_over(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> bool:
    """ "Slide it all up to 6, no, 5. Up to 5": the first fret of a chord just put right is told over."""
    last = telling.last()
    if last is None or not last.corrected or len(last.voices) < 2 or strings or telling.correcting:
        return False
    over = list(last.frets[:1]) == frets and not _says_again(telling, said)
    return over and said.start - last.end <= RESTATED


def _on_new_string(telling: Telling) -> bool:
    """Whether another string was named since the last note: a fret on it is a note of its own."""
    last, naming = telling.last(), telling.namings[-1] if telling.namings else None
    if last is None or naming is None or naming.at < last.end or len(naming.strings) != 1:
        return False
    return not set(naming.strings[0]) & {string for voice in last.voices for string in voice.named}


def _is_told(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether the words only come back to a note already told."""
    return (
        _settles_on(telling, said, frets)
        or _says_group_over(telling, said, frets, strings)
        or _points_back(telling, said, frets)
        or _stands(telling, said, frets, strings)
    )


def _stands(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether the words name a note already told, to go on from it or to speak of it."""
    if telling.correcting is not None or _says_again(telling, said):
        return False
    if not strings and is_the_slip(telling, said, frets):
        return True
    return starts_from(telling, said, frets, strings) or is_spoken_of(telling, said, frets, strings)


def _points_back(telling: Telling, said: Instruction, frets: list[Fret]) -> bool:
    """Whether a bare "that 7" or "the 7" only speaks of a note already told."""
    last = telling.last()
    if last is None or said.all("string") or len(frets) != 1 or telling.correcting or not said.all("fret"):
        return False
    if last.again and last.end == said.start and last.frets == tuple(frets):
        return True
    if said.text("side") == abreast.ALL and set(last.frets) == {frets[0]}:
        return True
    afresh = last.placed or _says_again(telling, said) or _on_new_string(telling)
    if said.text("mark") or said.text("side") or afresh:
        return False
    start = slot_of(said, "fret").start
    word = telling.items[start].text
    recent = [fret for step in telling.steps[-LOOK_BACK:] for fret in step.frets]
    lead = telling.said_between(said.start, start)
    if lead - set(telling.words.idle_before_fret):
        return False
    if word in telling.words.pointing:
        return last.frets == (frets[0],) or (frets[0] in recent and not lead & set(telling.words.striking))
    if word not in telling.words.article:
        return False
    opens = telling.items[said.start].before >= Break.HARD
    fingered = 0 <= said.start - telling.finger_at <= 1
    return last.frets == (frets[0],) or ((opens or fingered) and frets[0] in recent[-SPOKEN_OF:])
