"""A letter that stands alone in front of a fret, and so belongs to it: "then the E flat ... eight"."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.letter_rows import BESIDE, CHORD_NUMBERS
from notesgen.settle.hearing.name_or_string import is_name, on_its_string, waiting
from notesgen.settle.hearing.scopes import scope
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.speech.instructions import Instruction, SlotValue
from notesgen.speech.items import Break

NAMED_WITHIN = 3  # items behind a note within which its name is told


def waits(telling: Telling, said: Instruction) -> bool:
    """Whether the letter is heard with the fret behind it, as its note's name or as its string."""
    if telling.correcting is not None:
        return False
    found = waiting(said, telling.following, telling.items, telling.words)
    if found is None:
        return _names_placed(telling, said)
    letter, coming = found
    if _names_last(telling, said, letter) or _is_chord(telling, said, coming):
        return False
    frets = frets_of(coming, "fret")
    if len(frets) == 1 and is_name(telling, letter, int(frets[0])):
        telling.letter_ahead = said
        return True
    if said.kind == "scope" or not telling.names.resolve(letter, ()):
        return False
    slot = replace(slot_of(said, "letter"), name="string")
    scope(telling, replace(said, kind="scope", slots=(slot,)))
    return True


def _names_placed(telling: Telling, said: Instruction) -> bool:
    """Whether the letter is the name of the note behind it, which is told with its string.

    So it is where that string gives the name, or the one beside: then one of the two was misspoken. An
    open string is told by a name of its own.
    """
    coming = on_its_string(said, telling.following, telling.items, telling.words)
    if coming is None or _names_last(telling, said, said.text("letter") or ""):
        return False
    frets, strings = frets_of(coming, "fret"), telling.strings_of(coming)
    if len(frets) != 1 or frets[0] in (0, "x") or len(strings) != 1:
        return False
    near = {one + by for one in strings[0] for by in (-1, 0, 1)} & {*range(1, telling.names.count + 1)}
    if not any(telling.names.gives(said.text("letter") or "", one, int(frets[0])) for one in near):
        return False
    telling.letter_ahead = said
    return True


def with_letter(telling: Telling, said: Instruction) -> Instruction:
    """The note with the letter that waits for it."""
    ahead = telling.letter_ahead
    if ahead is None or said.kind != "note":
        return said
    telling.letter_ahead = None
    letter = ahead.text("letter") or ahead.text("string") or ""
    slot = SlotValue("letter", letter, ahead.start, ahead.end)
    return replace(said, start=ahead.start, slots=(slot, *said.slots))


def _is_chord(telling: Telling, said: Instruction, coming: Instruction) -> bool:
    """Whether letter and number stand together as in a chord's name, and no note was told so before."""
    slot = slot_of(coming, "fret")
    together = slot.start == said.end and telling.items[said.end].before == Break.NONE
    bare = slot.end - slot.start == 1 and slot.value in CHORD_NUMBERS
    last = telling.last()
    among = last is not None and last.start in telling.lettered and said.start - last.end <= BESIDE
    return together and bare and not among


def _names_last(telling: Telling, said: Instruction, letter: str) -> bool:
    """Whether the letter is the name of the note just told, which has none yet."""
    last = telling.last()
    if last is None or last.letter or len(last.voices) > 1 or last.frets[0] == "x":
        return False
    held = last.voices[0].named or last.before or telling.last_strings()
    close = said.start - last.end <= NAMED_WITHIN
    return close and any(telling.names.gives(letter, one, int(last.frets[0])) for one in held)
