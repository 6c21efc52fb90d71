"""Notes called by their letters: letters that name a note, not a string, and frets that follow from them."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Strings, Voice
from notesgen.speech.instructions import Instruction

OCTAVE = 12  # frets
NEXT_STRING = (4, 5)  # frets at which a string gives the open note of the next: its letter proves nothing
SPELLED_WITHIN = 4  # items within which a note called by its letter alone is given its fret


def name_of(telling: Telling, said: Instruction, frets: list[Fret]) -> str:
    """The letter by which the words call their note; "" when they only name a string, or nothing."""
    letter = said.text("letter")
    if letter or len(frets) != 1 or frets[0] == "x" or not said.all("fret") or not said.all("string"):
        return letter or ""
    slot, fret = slot_of(said, "string"), int(frets[0])
    code = str(slot.value)
    if not telling.strings_of(said):
        letter = code.rpartition(" ")[2]
        return letter if telling.names.is_letter(letter) else ""
    words = [
        item.text for item in telling.items[slot.start : slot.end] if item.text not in telling.words.article
    ]
    behind = slot.start == slot_of(said, "fret").end
    if len(words) != 1 or len(code) != 1 or fret % OCTAVE == 0:
        return ""
    last = telling.last()
    if not behind and fret in NEXT_STRING and not (last and last.letter_at_once and telling.near(said, 0)):
        return ""
    held = telling.last_strings()
    return code if any(telling.names.gives(code, one, fret) for one in held) else ""


def fret_of_name(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> list[Fret]:
    """The fret of a note named by its letter on a string, nearest to the note before."""
    letter = said.text("letter")
    if letter is None or len(strings) != 1:
        return []
    frets: set[Fret] = {_nearest(telling, letter, string) for string in strings[0]}
    return list(frets) if len(frets) == 1 else []


def speaks_of_told(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> bool:
    """Whether a name on a string is that of a note already told: "first fret, on the B, a C"."""
    last = telling.last()
    if last is None or said.all("fret") or not said.text("letter") or len(frets) != 1 or len(strings) != 1:
        return False
    alone = len(last.voices) == 1 and last.frets == tuple(frets)
    if alone and not last.voices[0].named and said.start - last.end <= SPELLED_WITHIN:
        voice = replace(last.voices[0], named=strings[0])
        telling.change_last(voices=(voice,), letter=said.text("letter"), end=said.end)
        return True
    places = {(voice.fret, voice.named) for step in telling.steps for voice in step.voices}
    points = telling.said_between(said.start, said.end) & set(telling.words.pointing)
    return bool(points) and (frets[0], strings[0]) in places


def next_by_name(telling: Telling, said: Instruction, letter: str) -> bool:
    """Whether a letter alone is the next note of a run whose last note was called by its letter too."""
    last = telling.last()
    if last is None or telling.named_alone != len(telling.steps) or not telling.near(said, 1):
        return False
    strings = last.voices[0].named
    follows = telling.said_between(said.end, said.end + 1) & (telling.numbers | set(telling.words.open))
    if len(strings) != 1 or follows or not telling.names.is_letter(letter):
        return False
    telling.add(said, [Voice(_nearest(telling, letter, strings[0]), strings)], letter=letter)
    telling.named_alone = len(telling.steps)
    return True


def gives_its_fret(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> bool:
    """Whether the fret belongs to the note just called by its letter alone: "the F sharp, so fourth fret"."""
    last = telling.last()
    if last is None or telling.named_alone != len(telling.steps) or strings or len(frets) != 1:
        return False
    if frets[0] == "x" or said.start - last.end > SPELLED_WITHIN:
        return False
    if (int(frets[0]) - int(last.frets[0])) % OCTAVE:
        return False
    telling.change_last(voices=(replace(last.voices[0], fret=frets[0]),), end=said.end)
    return True


def _nearest(telling: Telling, letter: str, string: int) -> int:
    """The fret that gives the letter on the string, nearest to the hand."""
    hand = _hand(telling)
    lowest = telling.names.lowest_fret(letter, string)
    return lowest if abs(lowest - hand) <= abs(lowest + OCTAVE - hand) else lowest + OCTAVE


def _hand(telling: Telling) -> int:
    """The fret last told, or the nut."""
    told = [fret for step in telling.steps[-LOOK_BACK:] for fret in step.frets if fret != "x"]
    return int(told[-1]) if told else 0
