"""How many notes come on a string: "two on the D, and I pick them both. 14, 12" has no fret 2.

A number and a string are a note as often as they announce several. What tells is that just as many frets
follow without a string, with one clue more: the words count, or the frets are written or lie otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings
from notesgen.settle.told import Naming
from notesgen.speech.instructions import Instruction

MOST = 6  # notes that are announced so
WITHIN = 2  # sentences behind the announcement within which its frets begin
FAR = 5  # frets between the number and those that follow, from which it is hardly one of them
TWO_FIGURES = 10  # from which captions write figures whatever they write below
ENOUGH = 2  # clues
PLAIN = ("note", "hammer-on", "pull-off", "slide", "legato", "bend", "pre-bend", "trill", "harmonic")
SILENT = ("aside", "together", "mark", "how", "unplayed", "position", "earlier", "release")
FRETS = ("fret", "from", "to", "via")

Row = list[tuple[int, int]]
"""Frets, each with the item at which it is said."""


def announces(telling: Telling, said: Instruction, frets: Sequence[Fret], strings: Sequence[Strings]) -> bool:
    """Whether the number only says how many notes come on the string; the string is in force then."""
    if len(frets) != 1 or len(strings) != 1 or not _is_bare(telling, said) or telling.correcting is not None:
        return False
    number = int(frets[0]) if frets[0] != "x" else 0
    rows = list(_rows(telling, said)) if 1 <= number <= MOST else []
    row = next((row for row in rows if len(row) == number), [])
    if not row or _clues(telling, said, number, row) < ENOUGH:
        return False
    sentence = telling.sentences.of(said.start)
    telling.namings.append(Naming(said.start, said.end, tuple(strings), sentence, ahead=True))
    telling.numbered_at = len(telling.steps)
    telling.numbered += 1
    return True


def speaks_of_numbered(telling: Telling) -> bool:
    """Whether "I pick them both" is of notes announced by their number, which are still to come."""
    return telling.numbered_at == len(telling.steps)


def _is_bare(telling: Telling, said: Instruction) -> bool:
    """Whether the number is one word by itself, and the string is named behind it."""
    if not said.all("fret") or not said.all("string"):
        return False
    fret, string = slot_of(said, "fret"), slot_of(said, "string")
    if fret.end - fret.start != 1 or string.start < fret.end:
        return False
    word, words = telling.items[fret.start].text, telling.said_between(fret.start - 1, string.start)
    bare = word in telling.numbers and word not in telling.ordinals
    articles = {*telling.words.article, *telling.words.pointing, *telling.words.reaching, "a", "an"}
    return bare and not words & {*telling.words.fret, *articles}


def _rows(telling: Telling, said: Instruction) -> Iterator[Row]:
    """The frets told next without a string, up to each place where their list may end."""
    row: Row = []
    for one in telling.following:
        if one.kind in SILENT and not one.all("string"):
            continue
        here = telling.sentences.of(one.start)
        if row and (_opens(telling, one) or here != telling.sentences.of(row[-1][0])):
            yield list(row)
        if one.kind not in PLAIN or one.all("string"):
            break
        if not row and (_moves_on(telling, one) or here - telling.sentences.of(said.start) > WITHIN):
            return
        row += sorted(
            (slot.start, int(slot.value))
            for slot in one.slots
            if slot.name in FRETS and isinstance(slot.value, int | float)
        )
    yield row


def _opens(telling: Telling, said: Instruction) -> bool:
    """Whether the words begin a clause of their own."""
    return telling.items[said.start].text in {*telling.words.moving_on, *telling.words.joining}


def _moves_on(telling: Telling, said: Instruction) -> bool:
    """Whether the fret comes after a note: "two on the D, and then 4"."""
    begins = [slot.start for slot in said.slots if slot.name in FRETS]
    return bool(telling.said_between(said.start, min(begins, default=said.end)) & {*telling.words.moving_on})


def _clues(telling: Telling, said: Instruction, number: int, row: Row) -> int:
    """How much tells that the number counts the notes of the row."""
    fret, words = slot_of(said, "fret"), telling.words
    lead = telling.said_between(said.start - 1, fret.start)
    between = telling.said_between(said.end, row[0][0])
    counting = bool(lead & {*words.having}) + (number > 1 and bool(lead & {*words.there_are}))
    every = number > 1 and bool(between & {*words.both, *words.every, *words.each})
    far = all(abs(value - number) >= FAR for _, value in row)
    twice = number > 1 and row[0][1] == number  # "three on the A: 3, 5, 7" strikes no 3 twice over
    otherwise = _is_written_otherwise(telling, fret.start, row)
    return counting + every + (far or twice) + otherwise + (telling.numbered > 0)


def _is_written_otherwise(telling: Telling, at: int, row: Row) -> int:
    """The clues of a number that is a word where the frets are figures; one alone proves little."""
    figures = [value for place, value in row if telling.items[place].text.isdigit()]
    if telling.items[at].text.isdigit() or not figures:
        return 0
    return 1 + (len(row) > 1 and min(figures) < TWO_FIGURES)
