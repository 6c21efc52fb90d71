"""What the hand holds down: chords by name and fingers laid across, and the strings struck in them."""

from __future__ import annotations

from collections.abc import Collection
from itertools import takewhile

from notesgen.music import chords
from notesgen.settle.hearing import own_shapes
from notesgen.settle.hearing.chord_again import strikes_chord_again
from notesgen.settle.hearing.over import pick_over
from notesgen.settle.hearing.placed import Grip
from notesgen.settle.hearing.rows import is_held
from notesgen.settle.hearing.slots import TELLS, frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings, Voice
from notesgen.speech.instructions import Instruction

SPELLED = 12  # items within which a chord by name is spelled out
BARRED_WITHIN = 4  # items after a chord's name within which a bar is only part of it
ACROSS_WITHIN = 4  # items behind a finger laid across within which its strings are named
MOST_VOICES = 6
NEXT_TO = 2  # items between one string of a row and the next
A_CHORD = 3  # strings told one after another that a name is of; ... struck as one that are held as a shape
A_PAIR = 2  # ... where it points at them
STATED = "stated"  # the slot "label" of a chord that is only named
OPENS_WITHIN = 3  # items after a string's name within which the fret for it follows


def grip(telling: Telling, said: Instruction) -> None:
    """Fingers that are held down from here on: a chord by name, or one finger across at a fret."""
    name, frets = said.text("chord"), frets_of(said, "fret")
    before = telling.grip
    if said.text("label") == STATED and _is_of_notes_told(telling, said):
        return
    if len(frets) == 1 and not said.all("string") and own_shapes.recalls(telling, said):
        own_shapes.strike(telling, said, frets[0])
        return
    if name:
        frets_held = chords.shape(name) if telling.names.stands_as_usual else {}
        telling.grip = Grip(frets_held, said.end, True, name)
    elif frets and not (telling.grip.chord and said.start - telling.grip.at <= BARRED_WITHIN):
        across = [string for candidates in telling.strings_of(said) for string in candidates]
        strings = across or _barred_before(telling, said) or range(1, telling.names.count + 1)
        telling.grip = Grip(dict.fromkeys(strings, frets[0]), said.end)
    telling.hand.update(telling.grip.frets)
    if name and said.kind == "grip":
        pick_over(telling, said, before)


def _barred_before(telling: Telling, said: Instruction) -> list[int]:
    """The strings of the bar struck just before, "bar 5 on the G and B, then bar 7 and hit both"."""
    last = telling.last()
    if last is None or len(last.voices) < A_PAIR or len({*last.frets}) > 1 or not telling.near(said, 0):
        return []
    return [string for voice in last.voices for string in voice.named]


def _is_of_notes_told(telling: Telling, said: Instruction) -> bool:
    """Whether "that's a D chord" names what was just told, on strings of their own or as one."""
    last = telling.last()
    if last is None or not telling.near(said, 1):
        return False
    pointed = telling.said_between(said.start, said.end) & {*telling.words.pointing}
    near = takewhile(lambda step: last.sentence - step.sentence <= 1, reversed(telling.steps[-A_CHORD:]))
    strings = {voice.named or step.before for step in near if not step.stroke for voice in step.voices}
    return len(strings) >= (A_PAIR if pointed else A_CHORD)


def chord(telling: Telling, said: Instruction) -> None:
    """A chord by name that is struck; where its notes follow one by one, they are what is struck."""
    if strikes_chord_again(telling, said):
        return
    grip(telling, said)
    if _is_spelled_after(telling, said):
        telling.chord_at, telling.chord_voices = said.end, MOST_VOICES
    else:
        strike(telling, said)


def _is_spelled_after(telling: Telling, said: Instruction) -> bool:
    """Whether the sentence goes on with the frets of the chord, and not with what comes then."""
    end = min(said.end + SPELLED, telling.sentences.end(telling.sentences.of(said.end - 1)))
    for item in telling.items[said.end : end]:
        if item.text in {*telling.words.moving_on, *telling.words.striking}:
            return False
        if item.text in telling.numbers or item.text in telling.words.open:
            return True
    return False


def strike(telling: Telling, said: Instruction) -> bool:
    """Strikes all that is held; says whether anything is."""
    if not telling.grip.frets:
        return False
    voices = [Voice(fret, (string,)) for string, fret in sorted(telling.grip.frets.items(), reverse=True)]
    known = any(set(step.voices) == set(voices) for step in telling.steps)
    telling.add(said, voices, unsure_chord=said.text("chord") or "" if not known else "")
    return True


def keep_chord(telling: Telling, said: Instruction) -> None:
    """A chord struck as one by these words is held where its strings are picked next: "then the D, the G"."""
    last = telling.last()
    if (
        said.kind not in ("together", "strum")
        or last is None
        or is_held(telling, said)
        or len(last.voices) < A_CHORD
        or "x" in last.frets
    ):
        return
    frets = {voice.named[0]: voice.fret for voice in last.voices if len(voice.named) == 1}
    if len(frets) == len(last.voices) and _are_picked_next(telling, said, frets):
        telling.grip = Grip(frets, said.end)


def _are_picked_next(telling: Telling, said: Instruction, held: Collection[int]) -> bool:
    """Whether the sentence that follows picks two of the strings or more, and tells no fret."""
    of = telling.sentences.of
    ahead = [one for one in telling.following[:MOST_VOICES] if one.kind != "aside"]
    told = [one for one in ahead if of(one.start) == of(ahead[0].start)]
    named = [string for one in told for string in telling.strings_of(one)]
    if len(named) < A_PAIR or any(one.all(slot) for one in told for slot in TELLS):
        return False
    spoken = telling.said_between(said.end, told[-1].end)
    picked = spoken & {*telling.words.striking, *telling.words.rolling}
    return bool(picked) and all({*candidates} & {*held} for candidates in named)


def pick(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Picks strings of what is held, one after the other, where the words name strings and no frets."""
    named = _certain(strings)
    if not is_held(telling, said) or len(named) != len(strings) or fret_follows(telling, said):
        return False
    if not _is_rolled(telling, said):
        return False
    for string in named:
        telling.pluck(said, string)
    return True


def strike_pair(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Strikes the strings named right behind a finger laid across: "the fifth fret, the G and the B"."""
    named = _certain(strings)
    grip = telling.grip
    near = grip.frets and not grip.chord and said.start - grip.at <= ACROSS_WITHIN
    if not near or len(named) < 2 or len(named) != len(strings):
        return False
    telling.grip = Grip({string: grip.frets.get(string, 0) for string in named}, grip.at)
    return strike(telling, said)


def pick_by_number(telling: Telling, said: Instruction) -> bool:
    """Picks strings of what is held, told by bare ordinals: "fifth string, the fourth, then the third"."""
    last, strings = telling.last(), telling.strings_of(said)
    slots = [slot for slot in said.slots if slot.name == "fret"]
    words = {word for slot in slots for word in telling.said_between(slot.start, slot.end)}
    by_ordinals = bool(slots) and words <= telling.ordinals | set(telling.words.article)
    goes_on = bool(last and last.stroke and telling.near(said, 0)) or (said.text("string") or "")[:1] == "#"
    named = _certain(strings) + [int(fret) for fret in frets_of(said, "fret")]
    if not telling.grip.frets or not by_ordinals or not goes_on or not set(named) <= set(telling.hand):
        return False
    for string in named:
        telling.pluck(said, string)
    return True


def _certain(strings: tuple[Strings, ...]) -> list[int]:
    """The strings of which the words leave no doubt."""
    return [one[0] for one in strings if len(one) == 1]


def _is_rolled(telling: Telling, said: Instruction) -> bool:
    """Whether the strings are struck: there is a verb for it, or they stand in a row of strings."""
    last, coming = telling.last(), telling.coming
    start = telling.sentences.start(telling.sentences.of(said.start))
    if telling.said_between(start, said.end) & {*telling.words.striking, *telling.words.rolling}:
        return True
    follows = coming is not None and coming.kind == "scope" and coming.start - said.end <= NEXT_TO
    return follows or (last is not None and last.stroke and said.start - last.end <= NEXT_TO)


def fret_follows(telling: Telling, said: Instruction) -> bool:
    """Whether the string is only named for the fret that comes right behind it."""
    coming = telling.coming
    if coming is None or coming.all("string"):
        return False
    if coming.start - said.end > OPENS_WITHIN and not in_one_sentence(telling, said, coming):
        return False
    return any(coming.all(slot) for slot in TELLS)


def in_one_sentence(telling: Telling, said: Instruction, coming: Instruction) -> bool:
    """Whether both are said in one sentence."""
    return telling.sentences.of(coming.start) == telling.sentences.of(said.start)
