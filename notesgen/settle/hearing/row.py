"""Strings told in a row, read from the words alone: "the A, then G and the high E", "five, three, two"."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from msgspec import Struct
from msgspec.structs import replace

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

LETTER, ORDINAL, NUMBER = "letter", "ordinal", "number"
PLACED_WITHIN = 3  # items behind a string within which its fret is placed there: "at the seventh"


class Struck(Struct, frozen=True):
    """One stroke of a row, said in items `start` up to `end`: one tuple of candidates for each string of it.

    `by` tells whether letters, ordinals or numbers name the strings, `open` that nothing is held there.
    """

    strings: tuple[Strings, ...]
    start: int
    end: int
    by: str
    open: bool = False


def read_row(telling: Telling, start: int, begin_by: int, said: Instruction | None = None) -> list[Struck]:
    """The strings in a row, the first of them named in items `start` up to `begin_by`; [] where none is.

    Names in `said`, the instruction that is heard, and in those that follow are as the grammar has them.
    """
    limit = telling.sentences.end(telling.sentences.of(start))
    names = _names(telling, said)
    first = next((at for at in range(start, min(begin_by, limit)) if _named(telling, at, names)), limit)
    row: list[Struck] = []
    at = first
    while at < limit:
        one = _named(telling, at, names, row[-1] if row else None)
        text = telling.items[at].text
        if one is not None:
            row = _with_next(row, one)
            at = one.end
        elif text in telling.words.as_one and len(row) > 1:
            row = _joined(telling, row, at)
            at += 1
        elif (
            text in telling.words.row_links
            or _leads_to_as_one(telling, at)
            or (row and text in telling.words.first)
        ):
            at += 1
        else:
            break
    if any(text in telling.words.accidentals for text in telling.said_between(at, min(at + 2, limit))):
        return []  # letters that spell a chord: "this is E, B, D, G sharp"
    if row and _fret_comes(telling, at, limit):
        row.pop()
    return row


def _fret_comes(telling: Telling, at: int, limit: int) -> bool:
    """Whether a number stands here, by itself or placed: "the D string 7", "... at the seventh"."""
    placed = {*telling.words.placing, *telling.words.article}
    ahead = list(range(at, min(at + PLACED_WITHIN, limit)))
    nearest = next((one for one in ahead if telling.items[one].text not in placed), limit)
    return nearest < limit and nearest in ahead and _is_number(telling, nearest)


def ranged(telling: Telling, row: list[Struck], held: Collection[int]) -> list[Struck]:
    """The row with the strings between its two, where these are its ends: "from the G down to the low E"."""
    words = telling.words
    if len(row) != 2 or not telling.said_between(row[0].start - 2, row[0].end) & {*words.source}:
        return row
    if not telling.said_between(row[0].end, row[1].end) & {*words.ranging_to}:
        return row
    ends = [[string for string in one.strings[0] if string in held] for one in row]
    if not all(ends):
        return row
    (first, *_), (last, *_) = ends
    inner = [string for string in range(min(first, last) + 1, max(first, last)) if string in held]
    inner = inner if first < last else inner[::-1]
    return [row[0], *(replace(row[1], strings=((one,),), start=row[1].start) for one in inner), row[1]]


def _names(telling: Telling, said: Instruction | None) -> list[Struck]:
    """The names of single strings that the grammar found, where more than a letter tells them."""
    words, found = telling.words, list[Struck]()
    for told in (said, *telling.following) if said is not None else telling.following:
        if any(told.all("fret")):
            continue  # a note of its own
        for slot in told.slots:
            spoken = telling.said_between(slot.start, slot.end)
            strings = telling.names.resolve(str(slot.value), ()) if slot.name == "string" else ()
            listed = len(str(slot.value)) > 1 and any(len(one) > 1 for one in strings)
            if len(strings) != 1 or listed or not spoken & {*words.string, *words.string_names}:
                continue
            lettered = len(str(slot.value).split()[-1]) == 1  # "A", "low E"; "#5" and "lowest" are longer
            found.append(Struck(strings, slot.start, slot.end, LETTER if lettered else ORDINAL))
    return found


def _named(telling: Telling, at: int, names: Sequence[Struck], before: Struck | None = None) -> Struck | None:
    """The string that is named at the item, with the words "high" and "string" that belong to it."""
    for name in names:
        lead = telling.said_between(name.start, at)
        if name.start <= at < name.end and lead <= {*telling.words.row_links} - {*telling.words.string}:
            return _struck(telling, at, name.end, name.strings, name.by)
    text = telling.items[at].text
    side = "high" if text in telling.words.thin_side else "low" if text in telling.words.thick_side else ""
    if side:
        return _outer(telling, at, side)
    if len(text) == 1 and text.isalpha():
        strings = telling.names.resolve(text.upper(), ())
        return _struck(telling, at, at + 1, strings, LETTER) if _is_letter(telling, at) else None
    if text in telling.words.string:
        return _by_its_number(telling, at)
    value = telling.values.get(text, 0)
    if not 1 <= value <= telling.names.count or not _ends_name(telling, at):
        return None
    by = ORDINAL if text in telling.ordinals or _is_numbered_string(telling, at) else NUMBER
    if by == ORDINAL and before is not None and _belongs(telling, before, at):
        return None
    return _struck(telling, at, at + 1, ((value,),), by)


def _by_its_number(telling: Telling, at: int) -> Struck | None:
    """ "String six": the number behind the word, where no name stands in front of it: "D string six"."""
    numbered = telling.items[at + 1 : at + 2]
    value = telling.values.get(numbered[0].text, 0) if numbered and not _is_by_one(telling, at + 1) else 0
    if not 1 <= value <= telling.names.count or numbered[0].before > Break.NONE:
        return None
    before = telling.items[at - 1] if at and telling.items[at].before == Break.NONE else None
    if before is not None and (len(before.text) == 1 or before.text in telling.ordinals):
        return None
    return _struck(telling, at, at + 2, ((value,),), ORDINAL)


def _belongs(telling: Telling, before: Struck, at: int) -> bool:
    """Whether "first" is said of the string just named: "the low E first, then the A"."""
    between = telling.said_between(before.end, at)
    if telling.items[at].before > Break.NONE or not between <= set(telling.words.string):
        return False
    if telling.said_between(at + 1, at + 2) & {*telling.words.string}:
        return False
    return before.by == LETTER or telling.items[at].text in telling.words.first


def _outer(telling: Telling, at: int, side: str) -> Struck | None:
    """ "The high E", "low A": the letter tells the string, and the side which of two."""
    following = telling.items[at + 1].text if at + 1 < len(telling.items) else ""
    if len(following) != 1 or not following.isalpha() or not _is_letter(telling, at + 1):
        return None
    strings = telling.names.resolve(f"{side} {following.upper()}", ())
    return _struck(telling, at, at + 2, strings, LETTER)


def _struck(telling: Telling, start: int, end: int, strings: tuple[Strings, ...], by: str) -> Struck | None:
    """The stroke, open where that is said right before it or right behind it and its "string"."""
    behind = end
    if by != NUMBER and telling.said_between(end, end + 1) & set(telling.words.string):
        behind += 1
    spoken = [item for item in telling.items[behind : behind + 1] if item.before == Break.NONE]
    around = telling.said_between(start - 1, start) | {item.text for item in spoken}
    return Struck(strings, start, end, by, bool(around & set(telling.words.open))) if strings else None


def _is_letter(telling: Telling, at: int) -> bool:
    """Whether the letter is no article and no chord: "a", where a pause or a link follows; "the A string"."""
    item, words = telling.items[at], telling.words
    following = telling.items[at + 1] if at + 1 < len(telling.items) else None
    if following is not None and following.text in words.chord_words and following.before == Break.NONE:
        return False
    if item.text != "a" or item.is_name or following is None:
        return True
    named = {*words.article, *words.locating} & telling.said_between(at - 1, at)
    linked = following.text in {*words.moving_on, *words.joining, *words.string, *words.row_ends}
    return bool(named) or linked or following.before > Break.NONE


def _ends_name(telling: Telling, at: int) -> bool:
    """Whether nothing follows that makes the number a count, a fret, a finger or a beat."""
    if at + 1 >= len(telling.items):
        return True
    following, words = telling.items[at + 1], telling.words
    ordinal = telling.items[at].text in telling.ordinals
    if telling.items[at].text in words.first and following.text in words.article:
        return False  # "first the G, then the D"
    if _is_by_one(telling, at):
        return False
    if following.before == Break.NONE and following.text in words.string:
        return ordinal or _is_numbered_string(telling, at)
    if following.before == Break.NONE and following.text in {*words.fret, *words.finger_nouns}:
        return False
    if following.text in words.locating:
        return False
    known = {*words.row_links, *words.row_ends, *words.as_one}
    return following.before > Break.NONE or following.text in known or following.text in telling.numbers


def _is_numbered_string(telling: Telling, at: int) -> bool:
    """Whether the number names the string right behind it: "five string"; "one string" is a count."""
    one, *_ = telling.words.string
    behind = telling.items[at + 1 : at + 2]
    named = telling.values.get(telling.items[at].text, 0) > 1 or bool(
        telling.said_between(at - 1, at) & {*telling.words.article}
    )
    return named and any(item.text == one and item.before == Break.NONE for item in behind)


def _is_by_one(telling: Telling, at: int) -> bool:
    """Whether the number is that of "one by one", "one at a time": it names nothing."""
    behind = telling.items[at + 1 : at + 2]
    return telling.values.get(telling.items[at].text) == 1 and any(
        item.text in telling.words.by_ones and item.before == Break.NONE for item in behind
    )


def _with_next(row: list[Struck], one: Struck) -> list[Struck]:
    """The row with its next string; the last one again, where it is only named over: "the D string, four"."""
    over = bool(row) and row[-1].by != one.by and one.strings[0] == row[-1].strings[0]
    return [*row[:-1], replace(one, start=row[-1].start)] if over else [*row, one]


def _is_number(telling: Telling, at: int) -> bool:
    """Whether a number follows that is the fret of the string named last; "one after the other" is none."""
    text = telling.items[at].text
    if text in telling.words.fret:
        return True
    if _is_by_one(telling, at):
        return False
    return text in telling.numbers and (telling.values.get(text) != 1 or _ends_name(telling, at))


def _joined(telling: Telling, row: list[Struck], at: int) -> list[Struck]:
    """The row with its last strokes as one: those told since "then", or the three of "all three together"."""
    near = telling.said_between(at - 2, at + 1)
    if near & {*telling.words.three}:
        size = min(3, len(row))
    elif near & {*telling.words.every}:
        size = len(row)
    else:
        turns = [back for back in range(1, len(row)) if _turns(telling, row[-back - 1], row[-back])]
        size = max(2, turns[0] if turns else len(row))
    parts = row[-size:]
    strings = tuple(one for part in parts for one in part.strings)
    return [*row[:-size], replace(parts[0], strings=strings, end=parts[-1].end)]


def _leads_to_as_one(telling: Telling, at: int) -> bool:
    """Whether the word is that in front of "together": "all together"."""
    ahead = telling.said_between(at + 1, at + 2) & {*telling.words.as_one}
    return bool(ahead) and telling.items[at].text in telling.words.every


def _turns(telling: Telling, one: Struck, two: Struck) -> bool:
    """Whether words lead on from the one string to the other, so that they are no single stroke."""
    return bool(telling.said_between(one.end, two.start) & {*telling.words.moving_on})
