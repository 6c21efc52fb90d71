"""A letter in front of a fret: the name of the note there, or the string.

The two tell themselves apart by one thing: at a given fret only a few strings give a note of that name. Where
none does, the letter is a string. Where the string at hand does, it is a name. Else the lesson decides: those
who call notes by their letters say letters that are no strings, and those who call strings so say frets at
which no string gives the letter. (Common practice, no source.)
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notesgen.grammar.model import WordLists
from notesgen.lesson.model import Fret
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings
from notesgen.settle.strings import StringNames
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break, Item

OCTAVE = 12  # frets
NEXT_STRING = (4, 5)  # frets at which a string gives the open note of the next: its letter proves nothing
BESIDE = 2  # strings away at which a name still tells the string, where a fret may be misspoken
CLOSE = 1  # frets by which a number may be misspoken where the name tells the note
CALLS_STRINGS = 1  # letters that can only be strings, from which those that may be either are
NEXT = "next"  # the slot "side" of a letter that can only be a further note
BEHIND = 5  # items behind a letter within which its fret is told


def giving(names: StringNames, letter: str, fret: int) -> Strings:
    """The strings that give a note of that name at the fret."""
    return tuple(one for one in range(1, names.count + 1) if names.gives(letter, one, fret))


def told_by(names: StringNames, letter: str, fret: int, held: Strings) -> Strings:
    """The strings that the letter of a fret allows, those at hand before all; () where none can be meant.

    Far from the hand, a fret beside the one said may be meant as well: then the letter tells no string.
    """
    fitting = giving(names, letter, fret)
    if here := tuple(one for one in fitting if one in held):
        return here
    near = tuple(one for one in fitting if any(abs(one - other) <= BESIDE for other in held))
    if near or not held:
        return near or fitting
    beside = (fret - CLOSE, fret + CLOSE)
    slipped = any(names.gives(letter, one, other) for one in held for other in beside)
    return () if slipped else fitting


def is_name(telling: Telling, letter: str, fret: int) -> bool:
    """Whether a letter in front of the fret is the name of the note there, not its string."""
    fitting = giving(telling.names, letter, fret)
    if not telling.names.resolve(letter, ()):
        return True
    if _is_of_strings_named(telling, letter):
        return False
    if not fitting or fret % OCTAVE == 0:
        return False
    here = bool(set(fitting) & set(at_hand(telling)))
    # behind a string named on its own, a letter is not another string
    proves = fret not in NEXT_STRING or telling.named_since() is not None
    return (here and proves and telling.leaning > -CALLS_STRINGS) or telling.leaning > 0


def _is_of_strings_named(telling: Telling, letter: str) -> bool:
    """Whether strings were named together just before, and this is one of them: "G eight, B eight"."""
    naming = telling.namings[-1] if telling.namings else None
    if naming is None or len(naming.strings) < 2:
        return False
    named = {string for strings in naming.strings for string in strings}
    called = {string for strings in telling.names.resolve(letter, ()) for string in strings}
    return bool(called & named) and {*telling.last_strings()} <= named


def string_by_letter(
    telling: Telling, said: Instruction, frets: Sequence[Fret], strings: tuple[Strings, ...]
) -> tuple[Strings, ...]:
    """The string that a letter in front of the fret names, where the string behind it has a fret of its own.

    In "the G, second fret, on the D, fourth fret" the second fret of the D gives no G. () else.
    """
    letter, coming = said.text("letter") or "", telling.coming
    if coming is None or coming.kind != "note" or coming.start != said.end or coming.all("string"):
        return ()
    if not letter or len(frets) != 1 or frets[0] == "x" or len(strings) != 1 or coming.all("letter"):
        return ()
    if slot_of(said, "letter").start > slot_of(said, "fret").start:
        return ()
    named = any(telling.names.gives(letter, one, int(frets[0])) for one in strings[0])
    return () if named else telling.names.resolve(letter, ())


def at_hand(telling: Telling) -> Strings:
    """The strings that the last note may be on, or that were named since."""
    last = telling.last()
    if last is None or len(last.voices) > 1 or telling.named_since():
        return telling.last_strings()
    return last.voices[0].named or telling.last_strings()


def leaning(
    instructions: tuple[Instruction, ...], items: tuple[Item, ...], words: WordLists, names: StringNames
) -> int:
    """How often letters in front of frets can only be names of notes, less how often only strings."""
    found = 0
    for letter, frets in _pairs(instructions, items, words):
        if not frets or not names.is_letter(letter) or frets[0] % OCTAVE == 0:
            continue
        is_note = bool(giving(names, letter, frets[0]))
        is_string = bool(names.resolve(letter, ()))
        found += is_note and not is_string
        found -= is_string and (not is_note or len(frets) > 1)
    return found


def is_bare(said: Instruction, items: tuple[Item, ...], words: WordLists) -> bool:
    """Whether the string is named by a letter alone, with its article at most: "then the A"."""
    if not said.all("string"):
        return False
    slot = slot_of(said, "string")
    spoken = [item.text for item in items[slot.start : slot.end] if item.text not in words.article]
    told = [text for text in spoken if text not in words.accidentals]
    return len(told) == 1 and len(str(slot.value)) == len(spoken)


def _pairs(
    instructions: tuple[Instruction, ...], items: tuple[Item, ...], words: WordLists
) -> Iterator[tuple[str, list[int]]]:
    """Each letter that stands right in front of frets, with these."""
    for at, said in enumerate(instructions):
        frets = [int(fret) for fret in frets_of(said, "fret") if fret != "x"]
        if said.kind == "note" and frets:
            slot = slot_of(said, "fret")
            if is_bare(said, items, words) and slot_of(said, "string").start < slot.start:
                yield said.text("string") or "", frets
            elif said.text("letter") and slot_of(said, "letter").start < slot.start:
                yield said.text("letter") or "", frets[:1]
        following = instructions[at + 1 : at + 1 + BEHIND]
        if found := waiting(said, following, items, words):
            letter, coming = found
            yield letter, [int(fret) for fret in frets_of(coming, "fret") if fret != "x"]


def waiting(
    said: Instruction, following: Sequence[Instruction], items: tuple[Item, ...], words: WordLists
) -> tuple[str, Instruction] | None:
    """The letter that stands alone right in front of frets without a string of their own, and their note."""
    coming = _fret_behind(said, following, items, words)
    if coming is None or coming.all("string") or coming.all("letter"):
        return None
    if said.kind == "letter" and len(said.all("letter")) == 1:
        letter = said.text("letter") or ""
    elif said.kind == "scope" and is_bare(said, items, words) and not said.all("other_string"):
        letter = said.text("string") or ""
    else:
        return None
    last = items[said.end - 1].text
    spoken = last.upper() == letter or last in words.accidentals
    return (letter, coming) if letter and spoken else None


def on_its_string(
    said: Instruction, following: Sequence[Instruction], items: tuple[Item, ...], words: WordLists
) -> Instruction | None:
    """The note right behind a lone letter that has a string of its own: "you want a B, 2 on the A"."""
    coming = _fret_behind(said, following, items, words)
    lone = said.kind == "letter" and said.text("side") == NEXT and len(said.all("letter")) == 1
    own = coming is not None and coming.all("string") and not coming.all("letter")
    return coming if lone and own else None


def _fret_behind(
    said: Instruction, following: Sequence[Instruction], items: tuple[Item, ...], words: WordLists
) -> Instruction | None:
    """The note right behind the words: up to its fret there is nothing but what says what the note is."""
    spoken = set(words.light) - {*words.moving_on, *words.joining, *words.locating, *words.again}
    at = said.end
    for one in following:
        is_note = one.kind == "note" and bool(one.all("fret"))
        until = slot_of(one, "fret").start if is_note and not one.all("string") else one.start
        between = items[at:until]
        if any(item.text not in spoken for item in between) or until - said.end > BEHIND:
            return None
        if any(item.before >= Break.HARD for item in items[said.end : until + 1]):
            return None
        if is_note or one.kind not in ("aside", "outside"):
            return one if is_note else None
        at = one.end
    return None
