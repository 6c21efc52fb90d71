"""Strings called by their number alone, where strings were counted before: "third string 7, 9, second 7"."""

from __future__ import annotations

from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.settle.told import Naming
from notesgen.speech.instructions import Instruction

LED_WITHIN = 4  # items between such a string and its fret: "in the first I do 5"
COUNTED_WITHIN = 8  # notes back to which a string may have been counted
FRETS_BACK = 3  # ... and to which frets are looked at for how they were told
FINGERS_WITHIN = 12  # items back to which ordinals may be those of fingers


def name_by_ordinal(telling: Telling, said: Instruction) -> None:
    """Puts the string in force that a bare ordinal right before a fret names."""
    at = _ordinal_before(telling, said)
    if at is None:
        return
    strings = ((telling.values[telling.items[at].text],),)
    telling.namings.append(Naming(at, at + 1, strings, telling.sentences.of(at), ahead=True))


def leads_to_fret(telling: Telling, said: Instruction) -> bool:
    """Whether the words are nothing but such a string, read as a fret or as something else: one follows."""
    coming = telling.coming
    if (
        coming is None
        or said.kind not in ("note", "together")
        or said.all("string")
        or len(said.all("fret")) > 1
    ):
        return False
    at = _ordinal_before(telling, coming)
    return at is not None and at == said.end - 1


def _ordinal_before(telling: Telling, said: Instruction) -> int | None:
    """The item of an ordinal that leads to the first fret of the words and is its string; None if none is."""
    slot = next((one for one in ("fret", "from") if said.all(one)), None)
    if slot is None or said.all("string") or telling.correcting is not None:
        return None
    start = slot_of(said, slot).start
    for at in range(start - 1, max(-1, start - 1 - LED_WITHIN), -1):
        text = telling.items[at].text
        if text in telling.ordinals:
            return at if _is_string(telling, at, telling.said_between(start, said.end)) else None
        if text not in telling.words.leading_to_fret:
            return None
    return None


def _is_string(telling: Telling, at: int, fret: frozenset[str]) -> bool:
    """Whether the ordinal at an item is a string's, in front of a fret told in these words."""
    number, last = telling.values.get(telling.items[at].text, 0), telling.last()
    recent = telling.steps[-COUNTED_WITHIN:]
    if last is None or last.end > at or not 1 <= number <= telling.names.count:
        return False
    if telling.said_between(at - FINGERS_WITHIN, at) & {*telling.words.finger_nouns}:
        return False
    if not _are_counted(telling, recent) or not _moves(telling, number, at):
        return False
    lead = telling.said_between(at - 2, at) & {*telling.words.article, *telling.words.inside}
    by_ordinal = fret & telling.ordinals
    if any(_fret_is_ordinal(telling, step) for step in recent[-FRETS_BACK:]) or by_ordinal:
        return bool(lead) and bool(fret & {*telling.words.fret} or not by_ordinal)
    return True


def _are_counted(telling: Telling, recent: list[Step]) -> bool:
    """Whether a string was told lately by its ordinal and its noun: "the third string"."""
    spans = [(step.start, step.end) for step in recent]
    spans += [(one.at, one.end) for one in telling.namings[-2:]]
    return any(
        telling.items[at].text in telling.ordinals and telling.items[at + 1].text in telling.words.string
        for start, end in spans
        for at in range(start, end - 1)
    )


def _moves(telling: Telling, number: int, at: int) -> bool:
    """Whether the string is another than the one in force; "first" may only tell the order of frets."""
    named = telling.named_since()
    if named is not None and named.at < at:
        return False
    strings = telling.last_strings()
    if number in strings:
        return False
    led = telling.said_between(at - 2, at) & {*telling.words.article, *telling.words.inside}
    return number > 1 or bool(led) or strings == (2,)


def _fret_is_ordinal(telling: Telling, step: Step) -> bool:
    """Whether the fret of a note was told as an ordinal: "the third fret", or "third" alone."""
    items = telling.items
    return any(
        items[at].text in telling.ordinals
        and items[at + 1 : at + 2]
        and items[at + 1].text not in telling.words.string
        for at in range(step.start, step.end)
    )
