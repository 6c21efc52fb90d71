"""One string told twice over: a number beside its name that is no string's after all, a letter that is.

"The D string, the fourth, at seven" has one fret, "the D string, the fifth, and the seventh" has two: whether
an ordinal beside the name of a string is its number only the tuning tells.
"""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.strings import APPOSED, MAYBE, StringNames, relation
from notesgen.speech.instructions import Instruction, SlotValue

BESIDE = (0, 1)  # items between a letter and the number of its string
NTH = 2  # items of "the fifth"
TELLS_FRETS = ("note", "scope")  # kinds in which such an ordinal may be a fret


def told_once(said: Instruction, names: StringNames, calls_notes: bool) -> Instruction:
    """The instruction with each of its strings told once, and with what was no name of a string as a fret.

    `calls_notes` tells that the teacher calls notes by their letters: then a letter is the note's.
    """
    slots: list[SlotValue] = []
    kind = said.kind
    for slot in said.slots:
        number = _no_string(slot, names)
        if number is None:
            slots.append(slot)
            continue
        slots.append(replace(slot, value=str(slot.value).partition(APPOSED)[0].removeprefix(MAYBE)))
        if kind in TELLS_FRETS:
            slots.append(SlotValue("fret", number, slot.end - NTH, slot.end))
            kind = "note"
    said = replace(said, kind=kind, slots=tuple(slots))
    return said if calls_notes else _without_letter(said, names)


def _no_string(slot: SlotValue, names: StringNames) -> int | None:
    """The ordinal beside the name of a string that has another number; None where there is none."""
    if slot.name != "string" or APPOSED not in str(slot.value):
        return None
    told, _, ordinal = str(slot.value).partition(APPOSED)
    digits = ordinal.removeprefix(MAYBE + "#")
    if not ordinal.startswith(MAYBE + "#") or not digits.isdigit() or relation(told) is not None:
        return None
    number = int(digits)
    strings = names.resolve(told.removeprefix(MAYBE), ())
    return None if not strings or number in strings[0] else number


def _without_letter(said: Instruction, names: StringNames) -> Instruction:
    """The note without a letter that is only its string's: "the B, second string, eighth fret"."""
    letter, frets = said.text("letter"), frets_of(said, "fret")
    if said.kind != "note" or not letter or len(frets) != 1 or frets[0] == "x":
        return said
    if not said.all("string") or slot_of(said, "string").start - slot_of(said, "letter").end not in BESIDE:
        return said
    strings = names.resolve(said.text("string") or "", ())
    called = names.resolve(letter, ()) if names.is_letter(letter) else ()
    if len(strings) != 1 or len(strings[0]) != 1 or not called or strings[0][0] not in called[0]:
        return said
    if names.gives(letter, strings[0][0], int(frets[0])):
        return said
    return replace(said, slots=tuple(slot for slot in said.slots if slot.name != "letter"))
