"""Notes struck together: pairs, double stops, power chords, and how they grow out of single frets."""

from __future__ import annotations

from itertools import takewhile

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing import (
    abreast,
    by_string,
    duet,
    kept,
    octaves,
    power,
    rooted,
    sliding_pairs,
    voice_by_voice,
)
from notesgen.settle.hearing.across import ACROSS, strike_across
from notesgen.settle.hearing.behind import lay_pair_before
from notesgen.settle.hearing.corrections import told
from notesgen.settle.hearing.joined import fits, join, known
from notesgen.settle.hearing.meeting import UNISON, meet
from notesgen.settle.hearing.others import OTHERS, others_open
from notesgen.settle.hearing.slots import frets_of, marks_of, slot_of
from notesgen.settle.hearing.struck import (
    both_before,
    covers,
    pair_in_force,
    sounds_on,
    strings_struck,
    with_each_other,
)
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Abreast, Rooted, Step, Strings, Voice
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

BY_FINGER = 2  # items between a finger and its fret: "finger on the", "finger is on"
JUST_BEHIND = 3  # items behind two notes within which they are called a chord
OVER_THE_OPEN = "over the open"  # the slot "side" of a note over a string that rings on, struck with it
AS_LAST = "as last"  # ... of the stroke told last, at another fret
IN_TURN = "in turn"  # ... of a fret for each string, struck one after the other
PAIR = 2  # voices of a stroke on two strings
POWER_STRINGS = 3  # the lowest strings laid flat are a power chord, and move as one


def pair(telling: Telling, said: Instruction) -> None:
    """Two or more strings struck together; open ones where no fret is said."""
    if said.text("side") == OTHERS:
        others_open(telling, said)
        return
    if said.text("side") == AS_LAST:
        _strike_elsewhere(telling, said)
        return
    frets = frets_of(said, "fret") + frets_of(said, "other_fret") or [0]
    strings = telling.strings_of(said) + telling.strings_of(said, "other_string")
    if said.all("other_fret") and not said.all("fret") and _opens(telling, said):
        frets = [0, *frets]
    if said.text("side") == IN_TURN and len(frets) == len(strings):
        for fret, string in zip(frets, strings, strict=True):
            telling.add(said, [Voice(fret, string)])
        return
    frets = abreast.spread(telling, said, frets, strings)
    if said.text("side") == ACROSS and strike_across(telling, said, frets, strings):
        return
    last = telling.last()
    every = telling.said_between(said.start, said.end) & set(telling.words.every)
    if last is not None and every and not strings and len(last.voices) == 1 and last.frets == tuple(frets):
        return
    if sliding_pairs.ends_slide(telling, said, frets, strings):
        return
    as_one = len(frets) == 1 and abreast.says_as_one(telling, said)
    struck = strings or pair_in_force(telling, said) or strings_struck(telling)
    group(telling, said, frets, struck or both_before(telling, said))
    if said.text("side") == UNISON:
        meet(telling, said)
    elif strings:
        lay_pair_before(telling)
        power.complete(telling)
    if said.text("side") == OVER_THE_OPEN or as_one:
        abreast.announce(telling, strings, said.start)
    if telling.said_between(said.start, said.end) & set(telling.words.every):
        _gather(telling)
    laid_flat = len(strings) == POWER_STRINGS and len(frets) == 1 and frets != [0]
    if laid_flat and strings[0] == (telling.names.count,):
        telling.shape = tuple(Voice(0, one) for one in strings)


def _strike_elsewhere(telling: Telling, said: Instruction) -> None:
    """Strikes what was struck last at another fret: "bar 5 on the G and B and hit both, then again at 7"."""
    last = telling.last()
    named = [voice.named for voice in last.voices] if last is not None else [()]
    for fret in frets_of(said, "fret"):
        telling.add(said, [Voice(fret, one) for one in named])


def _gather(telling: Telling) -> None:
    """Joins the single notes of the sentence to the pair that ends it, where all are struck in one go."""
    while len(telling.steps) > 1:
        before, last = telling.steps[-2:]
        taken = {string for voice in last.voices for string in voice.named}
        named = before.voices[0].named
        joins = len(before.voices) == 1 and before.how == "pick" and named and not taken & set(named)
        if not joins or before.sentence != last.sentence:
            return
        telling.steps[-2:] = [replace(last, voices=(*before.voices, *last.voices), start=before.start)]


def shape(telling: Telling, said: Instruction) -> None:
    """A power chord by the fret of its root; without one, a chord that is spelled out next."""
    frets = frets_of(said, "fret")
    if not frets or power.is_spelled_next(telling, said, frets):
        if not frets and _calls_last(telling, said):
            join(telling)
            return
        if _names_stroke(telling, said):
            return
        telling.chord_at, telling.chord_voices = said.end, 3
        if telling.said_between(said.start, said.end) & {*telling.words.two}:
            telling.together_at, telling.chord_voices = said.start, PAIR
        if telling.octaves_in == len(telling.sections):
            telling.octaves_in, telling.rooted = 0, Rooted()
        return
    strings = telling.strings_of(said)
    root = strings[0][-1] if strings else rooted.home(telling, said)
    rises = rooted.power(telling, said, root)
    telling.shape = tuple(Voice(rise or 0, (root - over,)) for over, rise in rises if root > over)
    move_shape(telling, said, frets)


def _calls_last(telling: Telling, said: Instruction) -> bool:
    """Whether the chord is that of the two notes just told: "5 on the A, 7 on the D, a power chord"."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or said.start - last.end > JUST_BEHIND or not fits(before, last):
        return False
    held, lone = [known(one)[0].named for one in (before, last)], len(before.voices) == len(last.voices) == 1
    if not lone or "x" in (*before.frets, *last.frets) or last.sentence != before.sentence:
        return False
    if telling.said_between(before.end, last.end) & {*telling.words.moving_on} or said.start < last.end:
        return False
    if telling.said_between(said.start, said.end) & {*telling.words.two}:
        return _ends_clause(telling, said)
    rise = (min(held[0]) - min(held[1]), int(last.frets[0]) - int(before.frets[0]))
    return rise in rooted.FIFTH or rise == (1, 0)


def _names_stroke(telling: Telling, said: Instruction) -> bool:
    """Whether the words only call by its name what was just struck: "together, that's a power chord"."""
    last, pointed = telling.last(), telling.said_between(said.start, said.end) & {*telling.words.pointing}
    return (
        bool(pointed) and last is not None and len(last.voices) > 1 and said.start - last.end <= JUST_BEHIND
    )


def _ends_clause(telling: Telling, said: Instruction) -> bool:
    """Whether nothing follows the words in their clause."""
    return said.end >= len(telling.items) or telling.items[said.end].before > Break.NONE


def move_shape(telling: Telling, said: Instruction, frets: list[Fret]) -> None:
    """The shape in force, with its root at each of the frets; told string by string, it is one stroke."""
    if said.start < telling.spelled_until:
        return
    row = power.row_of(telling, said, frets, len(telling.shape))
    if power.spells(telling.shape, [fret for fret, _ in row]):
        telling.spelled_until = row[-1][1]
        if telling.near(said, 1) and telling.steps[-1].frets == tuple(fret for fret, _ in row):
            telling.change_last(end=row[-1][1])
            return
        frets = frets[:1]
    for fret in frets:
        if fret != "x":
            telling.add(said, [replace(v, fret=int(v.fret) + int(fret)) for v in telling.shape])


def group(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> None:
    """One step on several strings, or one a round: one fret for all, or a fret each; else single notes."""
    if not frets or not strings:
        return
    size = len(strings)
    barred = abreast.are_barred(telling, said)
    if len(frets) not in (1, size) or (barred and len(frets) > 1):
        if len(frets) % size == 0 and not barred:
            for at in range(0, len(frets), size):
                group(telling, said, frets[at : at + size], strings)
            return
        across = strings if barred else ((),)
        for fret in frets:
            telling.add(said, [Voice(fret, one) for one in across])
        return
    spread = frets * len(strings) if len(frets) == 1 else frets
    voices = [Voice(fret, candidates) for fret, candidates in zip(spread, strings, strict=True)]
    if _spells_out_last(telling, said, voices):
        return
    telling.add(said, voices, marks=marks_of(said))
    if set(strings) != set(telling.abreast.strings):
        telling.abreast = Abreast()
    if len(frets) == 1 and not telling.said_between(said.start, said.end) & set(telling.words.flat):
        abreast.begin(telling)


def _spells_out_last(telling: Telling, said: Instruction, voices: list[Voice]) -> bool:
    """Whether the strings only spell out the chord just played: "so it's 3, 3, 3 on the lowest three"."""
    last = telling.last()
    if last is None or len(voices) < 3 or set(last.voices) != set(voices):
        return False
    return bool(telling.said_between(said.start, said.end) & set(telling.words.summing_up))


def takes(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether a lone fret became part of a pair: the one being opened, mended or completed."""
    if len(frets) != 1 or not said.all("fret"):
        return False
    fret = frets[0]
    if telling.correcting is not None:
        return bool(strings) and _mends_pair(telling, said, fret, strings)
    if sliding_pairs.slides_on(telling, said, fret, strings):
        return True
    if not strings and (_strikes_again(telling, said, fret) or abreast.says_over(telling, said, fret)):
        return True
    told = strings or abreast.named_alone(telling, said)
    if kept.changes(telling, said, fret, told) or voice_by_voice.takes(telling, said, fret, told):
        return True
    if not strings and said.text("side") in (None, abreast.ALL) and abreast.deals(telling, said, fret):
        return True
    if by_string.ends_list(telling, said, fret, strings):
        return True
    if octaves.completes(telling, said, fret, strings) or duet.answers(telling, said, fret, told):
        return True
    last = telling.last()
    if by_string.begins_row(telling, said, fret, told) or by_string.is_fifth(telling, said, fret, told):
        return True
    if last is None or _gap(telling, said, last) > _reach(telling, last):
        return False
    beside = said.start - last.end <= _reach(telling, last)
    spelled = by_string.spells_chord(telling, said, fret, strings)
    taken = spelled or (beside and _joins(telling, said, last, fret, strings))
    if taken:
        telling.fold_retold()
    return taken


def _opens(telling: Telling, said: Instruction) -> bool:
    """Whether the first string is called open: "open D with 7 on the G"."""
    return bool(telling.said_between(said.start, slot_of(said, "string").end) & {*telling.words.open})


def _gap(telling: Telling, said: Instruction, last: Step) -> int:
    """The items between a note and the one told next, leaving out the finger for it: "third finger on 9"."""
    before = telling.preceding
    fingered = before is not None and before.all("finger") and said.start - before.end <= BY_FINGER
    start = before.start if before is not None and fingered and before.start >= last.end else said.start
    return start - last.end


def _reach(telling: Telling, last: Step) -> int:
    """How many items may stand between a note and the one struck with it: "4 with the same open E"."""
    links = {*telling.words.together_with, *telling.words.article, *telling.words.sameness}
    row = takewhile(lambda item: item.text in links, telling.items[last.end : last.end + JUST_BEHIND])
    return max(1, sum(1 for _ in row))


def _strikes_again(telling: Telling, said: Instruction, fret: Fret) -> bool:
    """Strikes the pair told last once more: "hit the eleven again"."""
    last = telling.last()
    after = telling.said_between(said.end, said.end + 1) & {*telling.words.again}
    if last is None or len(last.voices) < PAIR or not after or last.frets[0] != fret:
        return False
    if said.start < telling.dealt_until:
        return False
    if not telling.near(said, 1):
        return False
    if telling.said_between(said.start, said.end) & {*telling.words.moving_on} or telling.grip.frets:
        return False
    telling.add(said, last.voices, again=True)
    return True


def _mends_pair(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Puts right the second voice of a pair before it was one: "4 on the G, and 4 on, sorry, 3 on the E"."""
    last, wrong = telling.last(2), telling.last()
    pair = pair_in_force(telling, said)
    if last is None or wrong is None or len(last.voices) != 1 or not covers(pair, last, strings[0]):
        return False
    telling.steps.pop()
    telling.correcting = None
    telling.change_last(voices=(last.voices[0], Voice(fret, strings[0])), end=said.end, corrected=told(wrong))
    return True


def _joins(telling: Telling, said: Instruction, last: Step, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Makes one step of "seven and seven" where a pair of strings is in force, and of "9 with 9"."""
    link = telling.said_between(last.end, slot_of(said, "fret").start)
    if _joins_opens(telling, said, last, fret, strings):
        telling.change_last(voices=(*last.voices, Voice(fret, strings[0])), end=said.end)
        return True
    if len(last.voices) != 1 or link & set(telling.words.moving_on):
        return False
    pair, first = pair_in_force(telling, said), last.voices[0]
    told = pair or strings_struck(telling)
    with_it = link & {*telling.words.together_with} or sounds_on(telling, fret, strings, link)
    if with_it and len(strings) <= 1 and (first.named or told):
        known = told if _is_fresh(telling, said) or first.named or (strings and not last.before) else ()
        voices = with_each_other(known, first, Voice(fret, strings[0] if strings else ()))
    elif _only_joins(telling, link) and len(pair) == 2 and not strings and not first.named:
        voices = (replace(first, named=pair[0]), Voice(fret, pair[1]))
    elif strings and covers(pair, last, strings[0]):
        voices = (first, Voice(fret, strings[0]))
    else:
        return False
    if last.how == "bend":
        own = replace(voices[0], how=last.how, bend=last.bend)
        telling.change_last(voices=(own, *voices[1:]), end=said.end, how="pick", bend=None)
        return True
    telling.change_last(voices=voices, end=said.end)
    telling.fold_retold()
    return True


def _joins_opens(
    telling: Telling, said: Instruction, last: Step, fret: Fret, strings: tuple[Strings, ...]
) -> bool:
    """Whether a second open string is struck with a note: "3 on the A with the open G and the open B"."""
    with_open = len(last.voices) == PAIR and last.voices[1].fret == 0 == fret and last.voices[0].fret != 0
    if not with_open or len(strings) != 1 or not telling.near(said, 0):
        return False
    link = telling.said_between(last.end, slot_of(said, "string").start) - {*telling.words.open}
    if not _only_joins(telling, link):
        return False
    apart = strings[0] not in [voice.named for voice in last.voices]
    words = telling.said_between(last.start, last.end) & {*telling.words.together_with}
    return apart and bool(words) and _ends_clause(telling, said)


def _only_joins(telling: Telling, link: frozenset[str]) -> bool:
    """Whether "and" is all that stands between two frets, or as good as: "seven and the seven"."""
    joining, words = {*telling.words.joining}, telling.words
    return bool(link & joining) and link <= {*joining, *words.article, *words.fret, *words.sameness}


def _is_fresh(telling: Telling, said: Instruction) -> bool:
    """Whether the pair in force was announced, or struck right before the note told last."""
    before = telling.last(2)
    return abreast.announced(telling, said) != () or (before is not None and len(before.voices) == PAIR)
