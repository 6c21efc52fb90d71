"""Strings struck as the hand holds them: told by letters, ordinals or numbers in a row, without frets."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.placed import Grip
from notesgen.settle.hearing.row import LETTER, NUMBER, Struck, read_row
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings, Voice
from notesgen.speech.instructions import Instruction

NAMES_STRINGS = frozenset(("scope", "stroke", "note", "pair", "aside", "letter", "together", "box"))
FRESH_FOR = 2  # sentences after a grip in which its first strings are picked
A_ROW = 3  # strings from which a row needs no verb
MOVED_AWAY = 2  # notes elsewhere after which the grip is given up
HELD_FOR = 4  # sentences without a stroke in it after which it is given up too


def strikes_row(telling: Telling, said: Instruction) -> bool:
    """Strikes the strings named here in a row, where something is held for them; says whether it did."""
    if said.start < telling.row_until:
        return True
    if (
        said.kind not in NAMES_STRINGS
        or _tells_its_fret(said)
        or not is_held(telling, said)
        or _is_corrected(telling)
    ):
        return False
    opened = telling.sentences.start(telling.sentences.of(said.start))
    start = max(telling.heard_until, telling.row_until, telling.grip.at, opened)
    row = read_row(telling, min(start, said.start), said.end)
    if not row or not _is_picked(telling, said, row, start):
        return False
    strike_row(telling, said, row)
    telling.row_until = row[-1].end
    return True


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
    told = [step for step in telling.steps[-MOVED_AWAY:] if step.start >= grip.at and not step.stroke]
    away = [step for step in told if not step.placed and len(step.voices) == 1]
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
    verb = bool(spoken & {*words.striking, *words.rolling, *words.fingering})
    goes_on = last is not None and last.stroke and telling.near(said, 1)
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


def _is_in(grip: Grip, candidates: Strings) -> bool:
    return any(string in grip.frets for string in candidates)


def _is_counted(row: list[Struck]) -> bool:
    """Whether the numbers are those of beats: "one, two, three, four"."""
    numbers = [one.strings[0][0] for one in row if one.by != LETTER]
    return len(numbers) > 1 and numbers == list(range(1, len(numbers) + 1))
