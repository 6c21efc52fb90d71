"""Strings struck as the hand holds them: told by letters, ordinals or numbers in a row, without frets."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.settle.hearing.placed import A_SHAPE, Grip, grip_of
from notesgen.settle.hearing.row import LETTER, NUMBER, Struck, ranged, read_row
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction

NAMES_STRINGS = frozenset(("scope", "stroke", "note", "pair", "aside", "letter", "together", "box"))
FRESH_FOR = 2  # sentences after a grip in which its first strings are picked
A_ROW = 3  # strings from which a row needs no verb
PINCHED_WITHIN = 3  # items behind "pinch" within which the first two strings of a row are named
EXPLAINED_WITHIN = 5  # items behind a row of numbers within which it is said that they are strings
TOLD_OVER = 2  # sentences behind such a row within which it is told over by the strings' names
MOVED_AWAY = 2  # notes elsewhere after which the grip is given up
HELD_FOR = 4  # sentences without a stroke in it after which it is given up too


def strikes_row(telling: Telling, said: Instruction) -> bool:
    """Strikes the strings named here in a row, where something is held for them; says whether it did."""
    if said.start < telling.row_until:
        return True
    if said.kind not in NAMES_STRINGS or _tells_its_fret(said) or _is_corrected(telling):
        return False
    told = len(telling.steps)
    if is_held(telling, said) and _strikes(telling, said):
        _put_down_first(telling, told)
        return True
    return _strikes_shape(telling, said)


def _put_down_first(telling: Telling, told: int) -> None:
    """The frets of a chord by name, told before its strings are struck: there the fingers only go down."""
    grip = telling.grip
    for at in range(told - 1, -1, -1):
        step = telling.steps[at]
        if not grip.name or step.start < grip.at:
            return
        spelled = step.how == "pick" and not step.stroke and step.frets != (0,)
        if spelled and _lies_in(grip, step):
            telling.steps[at] = replace(step, placed=True)


def hold(telling: Telling, shape: Grip) -> None:
    """Fingers put down one by one are held from here on; the other strings are open."""
    telling.grip = shape
    telling.hand = {**dict.fromkeys(range(1, telling.names.count + 1), 0), **shape.frets}


def _strikes_shape(telling: Telling, said: Instruction) -> bool:
    """Strikes the strings named here in the shape of the fingers that were put down just before."""
    by_fingers, standing = _fingers_down(telling, said), (telling.grip, telling.hand)
    down = by_fingers or _put_in_chord(telling, said)
    if sum(len(step.voices) for step in down) < A_SHAPE:
        return False
    hold(telling, grip_of(down))
    struck_from = len(telling.steps)
    if not _strikes(telling, said):
        telling.grip, telling.hand = standing
        return False
    at = next(at for at, step in enumerate(telling.steps) if step is down[0])
    long = min(len(down), len(telling.steps) - struck_from) >= A_ROW
    only = long or not by_fingers or all(step.placed for step in down)
    telling.steps[at : at + len(down)] = [] if only else [replace(step, placed=True) for step in down]
    return True


def _fingers_down(telling: Telling, said: Instruction) -> list[Step]:
    """The last notes, each told with the finger that is put there, on strings of their own; else []."""
    down: list[Step] = []
    for step in reversed(telling.steps):
        named = step.voices[0].named
        if not down and step.frets == (0,) and named:
            continue  # a bass string that needs no finger
        told = step.finger or step.fingered or step.placed
        if not told or len(step.voices) > 1 or len(named) != 1 or step.how != "pick" or step.frets == (0,):
            break
        if any(one.voices[0].named == named for one in down):
            break
        down.insert(0, step)
    return down if _are_held(telling, said, down) else []


def _put_in_chord(telling: Telling, said: Instruction) -> list[Step]:
    """The notes told since a chord was named, or before the other strings were said to be open; else []."""
    named_at = telling.grip.at if telling.grip.name else said.start
    down: list[Step] = []
    for step in reversed(telling.steps):
        named = step.voices[0].named
        if not down and step.frets == (0,) and named and step.start > telling.rest_open_at:
            continue  # a bass string that needs no finger
        alone = all(len(voice.named) == 1 for voice in step.voices)
        plain = step.how == "pick" and alone and not step.stroke
        if plain and not down and len(step.voices) > 1 and _is_laid(telling, step):
            return [step]
        if not plain or len(step.voices) > 1 or (step.start < named_at and step.start > telling.rest_open_at):
            break
        if any(one.voices[0].named == named for one in down):
            break
        down.insert(0, step)
    if not _are_held(telling, said, down):
        return []
    row = read_row(telling, said.start, said.end, said)
    struck = {string for one in row for candidates in one.strings for string in candidates}
    return down if struck.issuperset(voice.named[0] for one in down for voice in one.voices) else []


def _are_held(telling: Telling, said: Instruction, down: Sequence[Step]) -> bool:
    """Whether the fingers that went down on these notes may still lie there."""
    return bool(down) and telling.sentences.of(said.start) - down[-1].sentence <= HELD_FOR


def _is_laid(telling: Telling, step: Step) -> bool:
    """Whether the fret on these strings only tells where a finger, or two, lie down."""
    spoken = telling.said_between(telling.sentences.start(step.sentence), step.end)
    words = telling.words
    return step.placed or bool(spoken & {*words.barred, *words.laying} and not spoken & {*words.striking})


def _strikes(telling: Telling, said: Instruction) -> bool:
    """Strikes the row of strings that is told here, if it is one and is struck."""
    pinching = {*telling.words.pinching}
    opened = telling.sentences.start(telling.sentences.of(said.start))
    start = max(telling.heard_until, telling.row_until, telling.grip.at, opened)
    row = ranged(telling, read_row(telling, min(start, said.start), said.end, said), telling.grip.frets)
    over = bool(row) and telling.near(said, TOLD_OVER) and _tells_over(telling, row)
    if not row or not (over or _is_picked(telling, said, row, start)):
        return False
    if len(row) > 1 and telling.said_between(row[0].start - PINCHED_WITHIN, row[0].start) & pinching:
        row = [replace(row[0], strings=row[0].strings + row[1].strings, end=row[1].end), *row[2:]]
    if not over:
        strike_row(telling, said, row)
    telling.row_until = row[-1].end
    return True


def _tells_over(telling: Telling, row: list[Struck]) -> bool:
    """Whether the row spells out one told by bare numbers: "six, four, five, so the low E, the D, the A"."""
    told = telling.steps[-len(row) :]
    if len(row) < A_ROW or len(told) < len(row) or not all(step.stroke for step in told):
        return False
    if not all(telling.said_between(step.start, step.end) <= telling.numbers for step in told):
        return False
    words = telling.words
    spelled = {one.by for one in row} != {NUMBER} or telling.said_between(row[0].start - 1, row[-1].end) & {
        *words.string
    }
    between = telling.said_between(told[-1].end, row[0].start)
    alike = all(
        len(step.voices) == len(one.strings)
        and all({*voice.named} & {*named} for voice, named in zip(step.voices, one.strings, strict=True))
        for step, one in zip(told, row, strict=True)
    )
    return bool(spelled) and alike and not between & {*words.moving_on, *words.again}


def strike_row(telling: Telling, said: Instruction, row: list[Struck]) -> None:
    """Adds a stroke for each, at the fret that is held there."""
    bass = said.text("finger") is not None
    last: Strings = (telling.names.count,) if bass else telling.last_strings()
    for one in row:
        strings = tuple(_meant(telling, candidates, last) for candidates in one.strings)
        voices = [Voice(0 if one.open else telling.hand.get(string, 0), (string,)) for string in strings]
        place = replace(said, start=one.start, end=one.end, slots=())
        telling.add(
            place, voices, origin="derived", stroke=True, placed=False, unsure_chord=telling.grip.name
        )
        last = strings[-1:]


def _meant(telling: Telling, candidates: Strings, last: Strings) -> int:
    """The one of the strings that is held, and nearest to the one before."""
    held = [string for string in candidates if string in telling.grip.frets] or list(candidates)
    return min(held, key=lambda string: abs(string - last[-1]) if last else -string)


def _tells_its_fret(said: Instruction) -> bool:
    """Whether the string is told behind its fret: "third fret on the A"."""
    frets = [slot.start for slot in said.slots if slot.name == "fret"]
    strings = [slot.start for slot in said.slots if slot.name == "string"]
    return bool(frets and strings) and frets[0] < strings[0]


def _is_corrected(telling: Telling) -> bool:
    """Whether the words put something right, or are put right themselves."""
    coming = telling.coming
    return telling.correcting is not None or (coming is not None and coming.kind == "correction")


def is_held(telling: Telling, said: Instruction) -> bool:
    """Whether the grip stands: taken or picked not long ago, and the hand has not gone elsewhere since."""
    grip, last = telling.grip, telling.last()
    since = last.start if last is not None and last.stroke and last.start >= grip.at else grip.at - 1
    if telling.sentences.of(said.start) - telling.sentences.of(since) > HELD_FOR:
        return False
    told = [step for step in telling.steps[-MOVED_AWAY:] if step.start >= grip.at and not step.placed]
    away = [step for step in told if len(step.voices) == 1 and not _lies_in(grip, step)]
    return bool(grip.frets) and len(away) < MOVED_AWAY


def _is_picked(telling: Telling, said: Instruction, row: list[Struck], start: int) -> bool:
    """Whether the row is struck and not only read out: by its verb, by its length, by the row before it."""
    kinds = {one.by for one in row}
    if NUMBER in kinds and (len(kinds) > 1 or _is_counted(row)):
        return False
    if not all(_is_in(telling.grip, candidates) for one in row for candidates in one.strings):
        return False
    words, last = telling.words, telling.last()
    lead = telling.said_between(start, row[0].start)
    if lead & {*words.read_out} - {*words.thumb} or lead & {*words.negating}:
        return False
    opened = max(telling.sentences.start(telling.sentences.of(said.start)), telling.grip.at)
    spoken = telling.said_between(opened, row[-1].end)
    verb = bool(spoken & {*words.striking, *words.rolling, *words.fingering}) or _are_strings(telling, row)
    struck = last is not None and last.start >= telling.grip.at and _lies_in(telling.grip, last)
    goes_on = last is not None and (last.stroke or struck) and telling.near(said, 1)
    fresh = (last is None or last.start < telling.grip.at) and (
        telling.sentences.of(said.start) - telling.sentences.of(telling.grip.at - 1) <= FRESH_FOR
    )
    if not telling.grip.chord and _names_the_bar(telling, row):
        return False
    if len(row) >= A_ROW:
        return (verb if NUMBER in kinds else fresh or verb) or goes_on
    if len(row) == A_ROW - 1:
        return (verb and fresh) or goes_on
    near = telling.said_between(row[0].start - 2, row[0].start)
    led = near & {*words.thumb, *words.moving_on, *words.striking}
    return (kinds != {NUMBER} or bool(near & set(words.thumb))) and bool(led) and (fresh or goes_on)


def _are_strings(telling: Telling, row: list[Struck]) -> bool:
    """Whether the numbers are said to be strings right behind them: "five, two, and I mean strings"."""
    behind = telling.said_between(row[-1].end, row[-1].end + EXPLAINED_WITHIN)
    return bool(behind & {*telling.words.string}) and not behind & {*telling.words.locating}


def _names_the_bar(telling: Telling, row: list[Struck]) -> bool:
    """Whether the strings only say over which of them the finger lies: "across the fifth fret, G and B"."""
    at = telling.grip.at
    one_sentence = telling.sentences.of(max(0, at - 1)) == telling.sentences.of(row[0].start)
    return one_sentence and not telling.said_between(at, row[0].start) & {
        *telling.words.striking,
        *telling.words.rolling,
        *telling.words.moving_on,
        *telling.words.thumb,
    }


def _lies_in(grip: Grip, step: Step) -> bool:
    """Whether the stroke is one of what is held."""
    rest = 0 if grip.opens else None
    return step.stroke or all(
        voice.named and grip.frets.get(voice.named[0], rest) == voice.fret for voice in step.voices
    )


def _is_in(grip: Grip, candidates: Strings) -> bool:
    return grip.opens or any(string in grip.frets for string in candidates)


def _is_counted(row: list[Struck]) -> bool:
    """Whether the numbers are those of beats: "one, two, three, four"."""
    numbers = [one.strings[0][0] for one in row if one.by != LETTER]
    return len(numbers) > 1 and numbers == list(range(1, len(numbers) + 1))
