"""Notes called by their letters: letters that name a note, not a string, and frets that follow from them."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.name_or_string import NEXT_STRING, at_hand, is_bare, is_name, told_by
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Strings
from notesgen.speech.instructions import Instruction

OCTAVE = 12  # frets
BESIDE = "beside"  # the slot "side" of a name that is told by how far its note is from the last
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
    if not is_bare(said, telling.items, telling.words) or fret % OCTAVE == 0:
        return ""
    if slot.start < slot_of(said, "fret").start:
        return code if _just_by_letter(telling, said) or is_name(telling, code, fret) else ""
    if fret in NEXT_STRING and _closed_by_string(telling):
        return ""
    return code if any(telling.names.gives(code, one, fret) for one in at_hand(telling)) else ""


def _closed_by_string(telling: Telling) -> bool:
    """Whether the fret before was told with its string behind it: "third fret low E, fifth fret A"."""
    last = telling.last()
    return last is not None and bool(last.voices[0].named) and last.closes and telling.named_since() is None


def _just_by_letter(telling: Telling, said: Instruction) -> bool:
    """Whether the note before was called by its letter, and the string at hand gives this one's name."""
    last, fret, letter = telling.last(), int(frets_of(said, "fret")[0]), said.text("string") or ""
    called = last is not None and last.start in telling.lettered and telling.near(said, 1)
    return called and any(telling.names.gives(letter, one, fret) for one in at_hand(telling))


def fret_of_name(
    telling: Telling, said: Instruction, strings: tuple[Strings, ...]
) -> tuple[list[Fret], tuple[Strings, ...]]:
    """The fret of a note named by its letter on a string, nearest to the note before, and that string.

    Of several strings that the words allow, that one is meant on which the hand has the least way to go.
    """
    letter = said.text("letter")
    if letter and said.text("side") == BESIDE:
        return _so_far_away(telling, said, letter)
    if letter is None or len(strings) != 1:
        return [], strings
    frets = {string: _nearest(telling, letter, string) for string in strings[0]}
    way = min(abs(fret - _hand(telling)) for fret in frets.values())
    near = [string for string, fret in frets.items() if abs(fret - _hand(telling)) == way]
    return [frets[near[0]]], (tuple(near),)


def _so_far_away(telling: Telling, said: Instruction, letter: str) -> tuple[list[Fret], tuple[Strings, ...]]:
    """The fret so far from the last one that gives the letter, and its string; else a string is named."""
    last, by = telling.last(), said.whole("amount") or 0
    is_string = bool(telling.said_between(said.start - 1, said.start) & set(telling.words.locating))
    if last is not None and len(last.voices) == 1 and last.frets[0] != "x" and not is_string:
        fret = int(last.frets[0])
        for string in at_hand(telling):
            for one in (fret - by, fret + by):
                if one >= 0 and telling.names.gives(letter, string, one):
                    return [one], ((string,),)
    if strings := telling.names.resolve(letter, telling.last_strings()):
        telling.name_alone(said, strings)
    return [], ()


def called_by(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> tuple[str, tuple[Strings, ...]]:
    """The letter by which the words call their note, "" for none, and the strings without such a letter."""
    if turned := _turned(telling, said, frets, strings):
        return turned
    called = name_of(telling, said, frets)
    if called and not said.text("letter"):
        return called, ()
    return "" if called and _names_last(telling, said, frets, strings) else called, strings


def _turned(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> tuple[str, tuple[Strings, ...]] | None:
    """The name and the string where two letters are each other's: "B string D, third fret"."""
    letter, code = said.text("letter") or "", said.text("string") or ""
    if len(frets) != 1 or frets[0] == "x" or len(strings) != 1 or not telling.names.is_letter(code):
        return None
    slot = slot_of(said, "string")
    spoken = telling.items[slot.start].text in telling.words.string
    if not (letter and spoken) or any(telling.names.gives(letter, one, int(frets[0])) for one in strings[0]):
        return None
    other = telling.names.resolve(letter, telling.last_strings())
    fits = any(telling.names.gives(code, one, int(frets[0])) for one in (other[0] if other else ()))
    return (code, other) if fits else None


def _names_last(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether the letter in front of a place is the name of the note before: "that's your A, 2 on the D".

    So it is where it fits that note and not the place; then that note has the name.
    """
    last, letter = telling.last(), said.text("letter")
    if last is None or not letter or last.letter or len(last.voices) > 1:
        return False
    if len(frets) != 1 or frets[0] == "x":
        return False
    if said.start - last.end > 1 or last.frets[0] == "x" or not strings:
        return False
    before = last.voices[0].named or last.before
    fits = any(telling.names.gives(letter, one, int(last.frets[0])) for one in before)
    if not fits or any(telling.names.gives(letter, one, int(frets[0])) for one in strings[0]):
        return False
    telling.change_last(letter=letter)
    return True


def sounding(
    telling: Telling, letter: str, frets: list[Fret], strings: tuple[Strings, ...]
) -> tuple[Strings, ...]:
    """The strings that the letter of one note tells; of several named, those that give it, if any do."""
    if not letter or len(frets) != 1 or frets[0] == "x" or len(strings) > 1:
        return strings
    if not strings:
        told = told_by(telling.names, letter, int(frets[0]), at_hand(telling))
        return (told,) if told else ()
    if len(strings[0]) < 2:
        return strings
    fitting = tuple(string for string in strings[0] if telling.names.gives(letter, string, int(frets[0])))
    return (fitting,) if fitting else strings


def call_last(telling: Telling, said: Instruction, letter: str) -> None:
    """Gives the note just added the letter by which it was told."""
    telling.change_last(letter=letter, letter_at_once=True)
    telling.named_alone = -1 if said.all("fret") else len(telling.steps)
    telling.lettered.add(said.start)


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


def gives_its_fret(
    telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]
) -> bool:
    """Whether the fret belongs to the note just called by its letter alone: "the F sharp, so fourth fret"."""
    last = telling.last()
    if last is None or not last.letter or telling.named_alone != len(telling.steps):
        return False
    if strings or len(frets) != 1:
        return False
    if frets[0] == "x" or said.start - last.end > SPELLED_WITHIN or _in_a_row(telling):
        return False
    fret, voice = int(frets[0]), last.voices[0]
    if (fret - int(last.frets[0])) % OCTAVE:
        every = range(1, telling.names.count + 1)
        fitting = [one for one in every if telling.names.gives(last.letter, one, fret)]
        if last.origin != "derived" or not fitting:
            return False
        string = min(fitting, key=lambda one: abs(one - voice.named[0]))
        voice = replace(voice, named=(string,))
    telling.change_last(voices=(replace(voice, fret=fret),), end=said.end)
    return True


def _in_a_row(telling: Telling) -> bool:
    """Whether the letter just told is the last of a row without frets: then a fret is that of the first."""
    last, before = telling.last(), telling.last(2)
    return (
        bool(last and before and before.letter)
        and last is not None
        and before is not None
        and (last.origin == before.origin == "derived" and last.start == before.start)
    )


def led_to(telling: Telling, said: Instruction) -> list[int]:
    """The fret to which a slur leads that names its note by the letter alone; [] where no string is known.

    A hammer-on rises to the next such note on the string, a pull-off falls; a slide takes the nearer one.
    """
    last, letter = telling.last(), said.text("letter") or ""
    if last is None or last.frets[0] == "x" or len(last.voices) > 1:
        return []
    fret = int(last.frets[0])
    strings = last.voices[0].named or last.before or telling.last_strings()
    if not strings:
        return []
    called = [one for one in strings if last.letter and telling.names.gives(last.letter, one, fret)]
    string = called[0] if called else strings[0]
    rise = (telling.names.lowest_fret(letter, string) - fret) % OCTAVE or OCTAVE
    up, down = fret + rise, fret + rise - OCTAVE
    if said.kind == "hammer-on":
        return [up]
    if said.kind == "pull-off" or (down >= 0 and fret - down < rise):
        return [down] if down >= 0 else []
    return [up]


def _nearest(telling: Telling, letter: str, string: int) -> int:
    """The fret that gives the letter on the string, nearest to the hand."""
    hand = _hand(telling)
    lowest = telling.names.lowest_fret(letter, string)
    return lowest if abs(lowest - hand) <= abs(lowest + OCTAVE - hand) else lowest + OCTAVE


def _hand(telling: Telling) -> int:
    """The fret last told, or the nut."""
    told = [fret for step in telling.steps[-LOOK_BACK:] for fret in step.frets if fret != "x"]
    return int(told[-1]) if told else 0
