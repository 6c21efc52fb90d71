"""Hammer-ons, pull-offs and slides: notes that grow out of the note before."""

from __future__ import annotations

from itertools import groupby
from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, Fret, How
from notesgen.settle.hearing import fingers
from notesgen.settle.hearing.abreast import begin, takes_source
from notesgen.settle.hearing.by_distance import reached
from notesgen.settle.hearing.names import led_to
from notesgen.settle.hearing.shifts import going, movable
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.standing import is_elsewhere
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.hearing.tied_over import ties_over
from notesgen.settle.hearing.underneath import underneath
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

EITHER_WAY = "either way"  # the slot "side" of a note that is tied to the last, up or down
BACK = "there and back"  # ... of a slide that ends where it began
PAIR = "pair"  # the slot "side" of a slide whose end is told next
LIFTED_WITHIN = 3  # items behind a finger's coming off within which a string is plucked
A_PAIR = 2  # notes struck at once that are counted
RESTATED = 16  # items within which a corrected note is said over as the start of a legato


def legato(telling: Telling, said: Instruction) -> None:
    """A hammer-on, pull-off or slide, from a fret that is said or just played, to one or more frets."""
    how = cast(How, said.kind)
    strings = telling.strings_of(said)
    named = strings[0] if len(strings) == 1 else ()
    start = frets_of(said, "from")
    targets = frets_of(said, "to")
    if not targets and said.text("letter"):
        targets = list[Fret](led_to(telling, said))
        if not targets:
            return
    targets = _reached(telling, said, start, targets)
    if said.text("side") == BACK and (begun := start or _lone_fret(telling)):
        targets = [*targets, begun[0]]
    said_over = start == targets and (telling.correcting is not None or how != "slide")
    if said_over or _counts_voices(telling, said, start):
        start = []
    if start and not strings and how == "slide" and takes_source(telling, said, start[0]):
        start = []
    if any(over(telling, how, start, targets, said) for over in (_says_repair_over, _says_over)):
        return
    if any(plays(telling, said, how, start, targets) for plays in (ties_over, _takes_pair)):
        return
    if not start and how != "slide" and _leads_on(telling, said, named):
        telling.name_alone(said, strings)
        named = ()
    if start:
        named = _begin(telling, said, start[0], bool(targets), named)
    if len(targets) == 1 and fingers.is_counted(telling, said, how, targets[0]):
        targets = []
    if not targets:
        if said.text("side") == PAIR:
            telling.sliding, telling.sliding_at = len(telling.steps), said.start
            return
        if said.text("side") == "last" and _was_pulled(telling):
            telling.change_last(how="pull-off", joined=False)
            return
        _unsaid(telling, said, how, named)
        return
    last = going(telling, said)
    whole = how == "slide" or said.text("side") == PAIR
    if whole and last and len(last.voices) > 1 and targets and not start:
        _move_group(telling, said, last, int(targets[0]))
        return
    _arrive(telling, said, how, named, [fret for fret, _ in groupby(targets)])


def _begin(telling: Telling, said: Instruction, fret: Fret, leads: bool, named: Strings) -> Strings:
    """Adds the note from which the slur goes, unless it stands there; its string, where one is known.

    `leads` tells that the words say where it goes.
    """
    correcting = telling.correcting is not None
    anew = correcting and leads and _tells_both(telling)
    if anew:
        telling.steps.pop()  # the slur that is told now replaces both notes of the slip
    elif _source_stands(telling, said, fret):
        return named or _held_at(telling, fret)
    if leads or not correcting:
        telling.add(said, [Voice(fret, named)])
    return named


def _tells_both(telling: Telling) -> bool:
    """Whether the last two notes are a slur told in one go: "hammer from 5 to 7, no, ..."."""
    last, before = telling.last(), telling.last(2)
    return last is not None and before is not None and last.how in LEGATO and last.start == before.start


def _lone_fret(telling: Telling) -> list[Fret]:
    """The fret of the note just told; none where several were struck."""
    last = telling.last()
    return list(last.frets) if last is not None and len(last.voices) == 1 else []


def _reached(telling: Telling, said: Instruction, start: list[Fret], targets: list[Fret]) -> list[Fret]:
    """The frets to which it goes; that of a slide may be told by its distance from where it starts."""
    if said.kind != "slide" or len(targets) != 1 or not said.all("to"):
        return targets
    last = telling.last()
    begun = start[0] if start else last.frets[0] if last is not None else "x"
    return [reached(telling, slot_of(said, "to").start, begun, targets[0])]


def _arrive(telling: Telling, said: Instruction, how: How, named: Strings, targets: list[Fret]) -> None:
    """Adds the frets to which it goes; what lies below the one hammered on is picked: "hammer 9 and 7"."""
    for at, fret in enumerate(targets):
        left = at > 0 and how == "hammer-on" and _falls(targets[at - 1], fret)
        begun: How = "pick" if left else _whichever_way(telling, said, how, fret)
        telling.add(said, [Voice(fret, named)], how=begun)


def _takes_pair(
    telling: Telling, said: Instruction, how: How, start: list[Fret], targets: list[Fret]
) -> bool:
    """Plays it on all strings named, from one fret to the other: "slide the G and the B from 5 to 7"."""
    strings = telling.strings_of(said)
    if len(strings) < 2 or not len(start) == len(targets) == 1:
        return False
    telling.add(said, [Voice(start[0], one) for one in strings])
    telling.add(said, [Voice(targets[0], one) for one in strings], how=how)
    return True


def _leads_on(telling: Telling, said: Instruction, named: Strings) -> bool:
    """Whether the string at the end is that of the frets that follow: "pull off to the open B string three".

    The note itself grows out of one on another string, and cannot lie there.
    """
    last, coming = telling.last(), telling.coming
    if last is None or coming is None or not named or len(last.voices) > 1:
        return False
    held = last.voices[0].named or (last.before if telling.has_own_string(last) else ())
    elsewhere = bool(held) and not {*held} & {*named}
    closes = slot_of(said, "string").end == said.end and coming.start == said.end
    return elsewhere and closes and coming.kind == "note" and not coming.all("string")


def _whichever_way(telling: Telling, said: Instruction, how: How, fret: Fret) -> How:
    """The technique, where the words leave open which way the note goes: "legato to the seventh"."""
    last = telling.last()
    falls = last is not None and _falls(last.frets[0], fret)
    return "pull-off" if said.text("side") == EITHER_WAY and falls else how


def _falls(one: Fret, other: Fret) -> bool:
    """Whether the second fret is lower."""
    return "x" not in (one, other) and int(other) < int(one)


def _says_repair_over(
    telling: Telling, how: How, start: list[Fret], targets: list[Fret], said: Instruction
) -> bool:
    """ "Hammer on to three, no, four. Hammer on to four": where it goes was just put right."""
    last = telling.last()
    if last is None or start or telling.correcting is not None or len(last.voices) > 1:
        return False
    alike = bool(last.corrected) and last.how == how and last.frets == tuple(targets)
    held = set(last.voices[0].named or last.before)
    return alike and said.start - last.end <= RESTATED and not is_elsewhere(telling.strings_of(said), held)


def _says_over(telling: Telling, how: How, start: list[Fret], targets: list[Fret], said: Instruction) -> bool:
    """Whether a pair that has just slid is told again: "so you pick the 7, and it slides to the 9"."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or not start or telling.correcting is not None:
        return False
    pair = len(last.voices) > 1 and len(before.voices) > 1 and not telling.strings_of(said)
    alike = (before.frets[:1], last.how, last.frets[:1]) == (tuple(start), how, tuple(targets))
    near = said.start - last.end <= RESTATED and telling.anaphoric(slot_of(said, "from").start)
    return pair and alike and near


def _unsaid(telling: Telling, said: Instruction, how: How, named: Strings) -> None:
    """A legato without its fret: to the finger that is named, back on, or to what is held underneath."""
    if _sums_up(telling, said) or fingers.comes_down(telling, said, how, named):
        return
    if how == "hammer-on":
        for fret in _back_on(telling):
            telling.add(said, [Voice(fret, named)], how=how)
        return
    if _lifted_to_pluck(telling, said):
        return
    off = underneath(telling)
    if how == "pull-off" and off is not None:
        telling.add(said, [Voice(off.fret, named)], how=how, unsure_fret=off.other)


def chain(telling: Telling, said: Instruction) -> None:
    """A picked or tapped fret, hammered up and pulled off again."""
    strings = telling.strings_of(said)
    named = strings[0] if strings else ()
    first: How = "tap" if said.text("side") == "tap" else "pick"
    start = frets_of(said, "fret")
    if start and not _source_stands(telling, said, start[0], "fret"):
        telling.add(said, [Voice(start[0], named)], how=first)
    targets = frets_of(said, "to")
    over = _says_repair_over(telling, "hammer-on", start, targets[:1], said)
    for fret in targets[over:]:
        telling.add(said, [Voice(fret, named)], how="hammer-on")
    for fret in frets_of(said, "via") or (start if said.all("to") else []):
        telling.add(said, [Voice(fret, named)], how="pull-off")


def _move_group(telling: Telling, said: Instruction, last: Step, target: int) -> None:
    """All voices of the last step go as far as its first voice does, unless the next words tell else."""
    moved = movable(last)
    if not moved:
        return
    by = target - int(moved[0].fret)
    voices = [replace(v, fret=int(v.fret) + by) for v in moved if int(v.fret) + by >= 0]
    telling.add(said, voices, how=cast(How, said.kind), origin="derived")
    begin(telling)
    if said.all("string") and _goes_on_to_other(telling, said):
        telling.sliding, telling.sliding_at = len(telling.steps) - 1, said.start


def _goes_on_to_other(telling: Telling, said: Instruction) -> bool:
    """Whether the other voice is told in the same breath: "slide to 9 on the D and 11 on the G"."""
    coming = telling.coming
    if coming is None or coming.start - said.end > 1 or not (coming.all("fret") and coming.all("string")):
        return False
    one_sentence = telling.sentences.of(coming.start) == telling.sentences.of(said.start)
    between = telling.said_between(said.end, slot_of(coming, "fret").start)
    return one_sentence and not between & {*telling.words.moving_on}


def _source_stands(telling: Telling, said: Instruction, fret: Fret, slot: str = "from") -> bool:
    """Whether the fret that a legato starts from is the note just played, not a new one."""
    last = telling.last()
    if last is None or fret not in last.frets or last.placed:
        return False
    if last.corrected and last.frets == (fret,) and said.start - last.end <= RESTATED:
        return True
    at = slot_of(said, slot).start
    strings = telling.strings_of(said)
    held = {string for voice in last.voices for string in voice.named}
    if is_elsewhere(strings, held):
        return False
    return telling.anaphoric(at) and telling.sentences.of(at) - last.sentence <= 1


def _held_at(telling: Telling, fret: Fret) -> Strings:
    """The string of the one note at the fret, of those just struck at once."""
    last = telling.last()
    found = [voice.named for voice in last.voices if voice.fret == fret] if last else []
    return found[0] if last and len(last.voices) > len(found) == 1 else ()


def _counts_voices(telling: Telling, said: Instruction, start: list[Fret]) -> bool:
    """Whether the number is that of the notes just struck at once: "slide the two to 10"."""
    last = telling.last()
    if last is None or start != [len(last.voices)] or start[0] in last.frets or len(last.voices) < A_PAIR:
        return False
    return not said.all("string") and telling.anaphoric(slot_of(said, "from").start)


def _sums_up(telling: Telling, said: Instruction) -> bool:
    """Whether techniques alone are told over: "so that's bend, release, pull off" plays nothing."""
    start = telling.sentences.start(telling.sentences.of(said.start))
    last = telling.last()
    return last is not None and any(max(start, last.end) <= cue.at for cue in telling.recaps[-1:])


def _back_on(telling: Telling) -> list[Fret]:
    """Where a hammer-on goes that says no fret: to the note that was just pulled off."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or last.how != "pull-off" or len(before.voices) > 1:
        return []
    return list(before.frets)


def _lifted_to_pluck(telling: Telling, said: Instruction) -> bool:
    """Whether the finger comes off for a string that is plucked then: "take it off and pluck the B"."""
    following = telling.items[said.end : said.end + LIFTED_WITHIN]
    verbs = [item for item in following if item.text in telling.words.striking]
    return bool(verbs) and said.text("side") != PAIR and verbs[0].before < Break.HARD


def _was_pulled(telling: Telling) -> bool:
    """Whether the last two notes, told in one sentence on one string, fall: then they are the pull-off."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or before.sentence != last.sentence or last.is_told_slurred:
        return False
    if "x" in last.frets + before.frets or len(last.voices) > 1 or len(before.voices) > 1:
        return False
    one, two = before.voices[0].named or before.before, last.voices[0].named or last.before
    same = not two or not one or bool(set(one) & set(two))
    return same and int(last.frets[0]) < int(before.frets[0])
