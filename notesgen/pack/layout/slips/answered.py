"""What an answer to a query makes of the words that were said."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import Flag, FlagKind, Number, Option
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.slips.misnamed import misnamed
from notesgen.pack.layout.slips.retold import retold
from notesgen.pack.layout.slips.said import Said, Slip, frets, notes_of, pair

LEFT_OPEN: frozenset[FlagKind] = frozenset(
    {"string-unsaid", "count-unsure", "technique-unsure", "amount-unsure", "reference-unsure"}
)
"""Queries about what was not said. The first choice of all others is what the teacher said, or was heard to:
any other answer means a slip."""
PICKED = {"a note picked anew": "picked", "a picked note": "picked"}


def slip(flag: Flag, option: Option, said: Said) -> Slip | None:
    """The slip that was made if the option is right; None where it was none."""
    if flag.kind == "told-differently":
        return retold(flag, option, said)
    if flag.kind == "fret-unsure":
        return misnamed(flag, option, said)
    if flag.kind in LEFT_OPEN or option == flag.options[0]:
        return None
    numbers = said.of(change.event for change in option.change)
    found = pair(numbers, frets(notes_of(option)))
    return of_number(*found) if found else _of_words(flag, option, numbers)


def of_number(number: Number, fret: int) -> Slip:
    """A number said wrong: "At 4:12 I say 8; it's 10."."""
    right = fret or "the open string"
    sentence = f"At {clock(number.start)} I say {number.value}; it's {right}."
    return Slip(number.start, sentence, number, fret)


def _of_words(flag: Flag, option: Option, numbers: Sequence[Number]) -> Slip | None:
    """A slip of another kind than a fret: a technique, an amount, a string, a note too many."""
    time = clock(flag.start)
    kept = flag.options[0].label.removeprefix("keep ").removeprefix("the ")
    right = PICKED.get(option.label, option.label.partition(" (")[0])
    if any(change.drop for change in option.change):
        return Slip(flag.start, f"At {time} I say {kept}; that note is not played.") if numbers else None
    if any(change.how or change.bend for change in option.change):
        return Slip(flag.start, f"At {time} I say {kept}; it's {right}.")
    notes = notes_of(option)
    moved = len({note.string for note in notes}) == 1 and frets(notes) <= {number.value for number in numbers}
    return Slip(flag.start, f"At {time}, read: {right}.") if moved and numbers else None
