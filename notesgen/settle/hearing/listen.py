"""The loop that follows the talk: each instruction to the function that knows its kind."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from itertools import islice, takewhile
from types import MappingProxyType

from msgspec.structs import replace

from notesgen.grammar.model import WordLists
from notesgen.settle.hearing.ahead import leads, strike_ahead
from notesgen.settle.hearing.alike import play_alike
from notesgen.settle.hearing.announced import play_announced
from notesgen.settle.hearing.apposed import told_once
from notesgen.settle.hearing.by_ordinal import leads_to_fret, name_by_ordinal
from notesgen.settle.hearing.called import as_string
from notesgen.settle.hearing.carried import carry
from notesgen.settle.hearing.earlier import comes_earlier, put_earlier
from notesgen.settle.hearing.few_repeated import repeats_few
from notesgen.settle.hearing.fingers import finger_named, hand_placed
from notesgen.settle.hearing.frames import NUMBERS, frame_end
from notesgen.settle.hearing.gone_over import lead_over
from notesgen.settle.hearing.grips import keep_chord
from notesgen.settle.hearing.harmonics import goes_on, keep_on
from notesgen.settle.hearing.joined import join_told
from notesgen.settle.hearing.kinds import HEARD, NOTED, PLAYED
from notesgen.settle.hearing.leading import lead_to
from notesgen.settle.hearing.letter_ahead import waits, with_letter
from notesgen.settle.hearing.marks import sound_on
from notesgen.settle.hearing.name_or_string import leaning
from notesgen.settle.hearing.over import follows_pattern
from notesgen.settle.hearing.owned import take_turn
from notesgen.settle.hearing.placed import Grip
from notesgen.settle.hearing.preamble import with_preamble
from notesgen.settle.hearing.recounted import puts_count_right
from notesgen.settle.hearing.repairs import (
    LONGEST,
    only_begun,
    open_broken_off,
    open_repair,
    put_right_by_place,
    puts_technique_right,
    strike_as_the_slip,
    take_back_string,
    takes_back_technique,
)
from notesgen.settle.hearing.repeated_ahead import begins_passage, close_passage
from notesgen.settle.hearing.rooted import spread
from notesgen.settle.hearing.rows import strikes_row
from notesgen.settle.hearing.said_over import denies_count
from notesgen.settle.hearing.same import for_each_string, tell_again
from notesgen.settle.hearing.scopes import scope
from notesgen.settle.hearing.slips import (
    is_taken_back,
    of_finger,
    of_fret_begun,
    of_what_is_not_played,
    puts_pair_right,
    said_twice,
    speaks_of_slip,
    trails,
)
from notesgen.settle.hearing.slurred_again import play_so_many, slurs_again
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.hearing.together import closes_chord, fingers_strike, together
from notesgen.settle.step import Rooted
from notesgen.settle.strings import StringNames
from notesgen.settle.told import Cue, Heading, Told
from notesgen.speech.habits import counts_frets
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Item
from notesgen.speech.surroundings import ODD

HEADING_AT = 2  # items of a sentence after which a heading is none
AS_ONE = "as one"  # the slot "label" of words that announce a recap, or strike as one what was just told
OPENING = "opening"  # the slot "label" of words that announce a recap only where a sentence begins
ONE_BREATH = 3  # items between two terms of one correction: "no, wait, that's the D string, sorry"
AT_ONCE = 8  # items within which a correction follows a string that it takes back
LOOKED_FOR = 20  # ... within which one may follow a note


def listen(
    instructions: tuple[Instruction, ...],
    items: tuple[Item, ...],
    words: WordLists,
    names: StringNames,
    drop: int | None,
    numbers: frozenset[str],
    ordinals: frozenset[str],
    values: Mapping[str, int] = MappingProxyType({}),
) -> Told:
    """Follows the talk.

    `drop` is the string that is tuned a fifth below the next, if any; `numbers` are the words of the talk
    that are numbers, `ordinals` those of them that are ordinals, `values` what those of one word stand for.
    """
    telling = Telling(items, words, names, drop, numbers, ordinals, values)
    telling.counts_frets = counts_frets(items, words, lambda at: items[at].text in ordinals)
    telling.leaning = leaning(instructions, items, words, names)
    instructions = tuple(told_once(said, names, telling.leaning > 0) for said in instructions)
    for at, (said, coming) in enumerate(zip(instructions, _coming(instructions), strict=True), start=1):
        telling.coming, telling.following = coming, instructions[at : at + LONGEST]
        said = as_string(telling, with_letter(telling, said))
        close_passage(telling, said)
        if said.start < telling.not_played_until:
            telling.skipped.append(said)
        elif strikes_row(telling, said):
            pass
        elif _is_stray(telling, said, instructions):
            telling.skipped.append(said)
        elif not leads_to_fret(telling, said) and not waits(telling, said) and not goes_on(telling, said):
            open_broken_off(telling, said)
            _hear(telling, only_begun(telling, said))
            keep_chord(telling, said)
        telling.heard_until = max(telling.heard_until, said.end)
        telling.preceding = said
    close_passage(telling, None)
    return with_preamble(telling.told())


def _coming(instructions: tuple[Instruction, ...]) -> list[Instruction | None]:
    """For each instruction, the next one that is no aside."""
    following: list[Instruction | None] = [None]
    for said in reversed(instructions):
        following.append(following[-1] if said.kind == "aside" else said)
    return following[-2::-1]


def _hear(telling: Telling, said: Instruction) -> None:
    _forget(telling, said)
    _name_ahead(telling, said)
    if said.kind == "aside" and said.all("finger"):
        finger_named(telling, said)
    if said.kind == "aside" and telling.owned:
        take_turn(telling, said)
    match said.kind:
        case "frame":
            _leave_out(telling, said)
        case "correction" if said.all("fret"):
            put_right_by_place(telling, said)
        case "correction" if said.all("string"):
            _correct_string(telling, said)
        case "correction":
            _correct(telling, said)
        case "recap":
            _retell(telling, said)
        case "box":
            telling.boxes.append(said.end)
        case "outside":
            telling.outside.append(said.start)
        case "earlier":
            comes_earlier(telling, said)
        case "grip" | "placing" | "position":
            hand_placed(telling, said)
        case "section" if _opens_sentence(telling, said) or _counts_on(telling, said):
            _begin_section(telling, _heading(telling, said), said.whole("label"))
        case "same" if not follows_pattern(telling, said):
            _refer(telling, said)
        case "count" if leads(telling, said):
            telling.counted_ahead = said
        case "again" if slurs_again(telling, said):
            pass
        case "count" | "repeat" if begins_passage(telling, said) or repeats_few(telling, said):
            pass
        case _ if said.kind in HEARD:
            told = len(telling.steps)
            HEARD[said.kind](telling, said)
            if said.kind in PLAYED:
                _follow_up(telling, said, told)
            if said.kind == "shift" and len(telling.steps) == told:
                return  # a distance that tells no note
    if said.kind in NOTED or (said.all("finger") and _strikes_last(telling, said)):
        telling.note_until = said.end


def _retell(telling: Telling, said: Instruction) -> None:
    """What follows is told over, unless the words lead to other strings or strike as one what was told."""
    if said.start - telling.moved_over <= ONE_BREATH:
        return  # "one pair over, so it's the G and the B at seven": new strings, new notes
    if said.text("label") == AS_ONE and closes_chord(telling, said):
        together(telling, said)
    elif said.text("label") != OPENING or _opens_sentence(telling, said):
        telling.seams.append(said.start)
        telling.recaps.append(Cue(said.start, said.text("label") == "weak"))


def _name_ahead(telling: Telling, said: Instruction) -> None:
    """What the words name before their notes are played: fret or string by an ordinal, a string gone to."""
    if said.kind in PLAYED:
        name_by_ordinal(telling, said)
        keep_on(telling, said)
        lead_over(telling, said)


def _refer(telling: Telling, said: Instruction) -> None:
    """Tells over what a reference means, on each string that it names, or on all of them as one."""
    if carry(telling, said):
        return
    for one in for_each_string(said):
        if one.text("string"):
            scope(telling, one)
        tell_again(telling, one)


def _strikes_last(telling: Telling, said: Instruction) -> bool:
    """Whether the finger only tells what the last note is struck with: "5 on the A with my thumb"."""
    link = [item.text for item in telling.items[max(0, telling.note_until) : said.start]]
    said_how = not link or (len(link) == 1 and link[0] in telling.words.by_means)
    return said_how and 0 <= telling.note_until <= said.start


def _follow_up(telling: Telling, said: Instruction, told: int) -> None:
    """What was said before bears on the notes just played, those from place `told` on."""
    telling.correcting = None
    strike_ahead(telling, told)
    spread(telling, said, told)
    strike_as_the_slip(telling)
    play_so_many(telling, said)
    if said.kind in ("note", "pair"):
        lead_to(telling, said, told)
    sound_on(telling, told)
    put_earlier(telling, said, told)
    join_told(telling, said, told)
    if said.kind in ("note", "recall"):
        play_announced(telling, said, told)
    if said.kind == "note":
        play_alike(telling, told)
    elif len(telling.steps) > told:
        telling.alike_from = -1


def _forget(telling: Telling, said: Instruction) -> None:
    """Ends what held for the notes so far: a list of harmonics, a shape that moved."""
    if said.kind in PLAYED and said.kind != "harmonic":
        telling.harmonic_fret = None
    if said.kind in ("scope", "hammer-on", "pull-off", "bend", "tap"):
        telling.shape = ()
    if said.kind in ("hammer-on", "pull-off", "tap"):
        telling.rooted = Rooted()


def _begin_section(telling: Telling, heading: Heading, number: int | None) -> None:
    """Begins a section, unless a number that was a heading before only speaks of its piece again."""
    if number and any(_words(telling, one) == _words(telling, heading) for one in telling.sections):
        return
    telling.piece = number or telling.piece
    telling.sections.append(heading)
    telling.shape = ()
    telling.grip = Grip()
    telling.correcting = None


def _words(telling: Telling, heading: Heading) -> tuple[str, ...]:
    return tuple(item.text for item in telling.items[heading.start : heading.end])


def _heading(telling: Telling, said: Instruction) -> Heading:
    """The heading without the words that lead to it: "okay", "so", "and now the"."""
    lead = {*telling.words.light, *telling.words.sentence_openers, *telling.words.clause_openers}
    start = said.start
    while start < said.end - 1 and telling.items[start].text in lead:
        start += 1
    return Heading(start, said.end)


def _counts_on(telling: Telling, said: Instruction) -> bool:
    """Whether the number is the one after the last heading's, as headings may be inside a sentence."""
    return bool(telling.piece) and said.whole("label") == telling.piece + 1


def _opens_sentence(telling: Telling, said: Instruction) -> bool:
    """Whether the words stand at the start of their sentence, as headings do."""
    return said.start - telling.sentences.start(telling.sentences.of(said.start)) <= HEADING_AT


def _correct_string(telling: Telling, said: Instruction) -> None:
    """A correction that names a string: the right one mostly, or the one that it takes back."""
    if is_taken_back(telling, said):
        scope(telling, said)
        _correct(telling, replace(said, slots=()))
    elif trails(telling, said):
        telling.correcting = replace(said, end=said.start)
        scope(telling, said)
        telling.correcting = None
    else:
        _correct(telling, said)
        scope(telling, said)


MENDS = (
    puts_technique_right,
    puts_count_right,
    denies_count,
    takes_back_technique,
    puts_pair_right,
    said_twice,
)
"""What may be put right that is neither the string named last nor the last note."""


def _leave_out(telling: Telling, said: Instruction) -> None:
    """Nothing is played as far as the words reach, unless fingers are told that strike their strings."""
    if said.text("extent") != NUMBERS or not fingers_strike(telling, said):
        telling.not_played_until = frame_end(telling, said)


def _correct(telling: Telling, said: Instruction) -> None:
    """A correction takes back the string just named, or waits for what replaces the last note."""
    last, naming = telling.last(), telling.named_since()
    if telling.correcting is not None and _goes_on_correcting(telling, said, telling.correcting):
        telling.correcting = replace(telling.correcting, end=said.end)
        return
    if of_finger(telling, said) or speaks_of_slip(telling, said):
        return
    if of_what_is_not_played(telling, said):
        telling.not_played_until = frame_end(telling, said)
        return
    if naming and said.start - naming.end <= AT_ONCE:
        if not of_fret_begun(telling, naming.end):
            take_back_string(telling, said)
        return
    if any(mends(telling, said) for mends in MENDS):
        return
    if last and said.start - last.end <= LOOKED_FOR:
        open_repair(telling, said, telling.following)


def _goes_on_correcting(telling: Telling, said: Instruction, begun: Instruction) -> bool:
    """Whether the words are one more term of the correction that is open: "no, wait, that's the D, sorry"."""
    return said.start - begun.end <= ONE_BREATH or (bool(telling.slips) and said.start < telling.slips_until)


def _is_stray(telling: Telling, said: Instruction, instructions: tuple[Instruction, ...]) -> bool:
    """A bare number in odd company, in a sentence without a word of guitar talk."""
    if said.doubt < ODD or said.kind != "note" or said.all("string"):
        return False
    sentence = telling.sentences.of(said.start)
    start, end = telling.sentences.start(sentence), telling.sentences.end(sentence)
    first = bisect_left(instructions, start, key=lambda other: other.start)
    around = takewhile(lambda other: other.start < end, islice(instructions, first, None))
    return not any(other.kind in HEARD and other.doubt < ODD for other in around)
