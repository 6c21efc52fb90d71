"""Which instrument the talk is for: by what is declared, and by the strings that it names.

Words alone are a weak sign, for guitarists speak of bass players. The strings prove them: whoever teaches the
bass names no B string, and only seven strings have a seventh.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.grammar.model import WordLists
from notesgen.music.tuning import standard
from notesgen.settle.claims import claims
from notesgen.settle.strings import StringNames
from notesgen.speech.instructions import Instruction, SlotValue
from notesgen.speech.items import Item

GUITAR, BASS, UKULELE = "guitar", "bass", "ukulele"
SEVEN, FIVE = "7-string guitar", "5-string bass"
LOW_B = "low B"  # the slot "instrument" of words that tell of a string below the usual ones
WEAK = "weak"  # the label of words that name an instrument only where the strings agree

_EARLY = 0.15  # an instrument said within this share of the talk is the lesson's
_PASSING = 2  # mentions of an instrument later in the talk that prove nothing
_SLIPS = 0.1  # share of misheard string names that does not speak against an instrument
_ENOUGH = 6  # strings named that tell what a word alone does not
_AT_ONCE = 0.05  # share of the talk within which one mention of the bass will do, whatever is said of guitars
_MANY = 20  # ... where so many strings are named, and all of them are its own
_TWICE = 2  # times that a string beyond the usual ones is named, and is no slip
_NOTES = 3  # ... and is no note: "down to the low B" names one


def said_instrument(said: tuple[Instruction, ...], items: tuple[Item, ...], words: WordLists) -> str | None:
    """The instrument of the lesson, None where nothing tells it.

    Named at the start of the talk, or often: a passing mention is no sign. Nor is a mention at the
    start, where the talk goes on to name strings that the instrument lacks.
    """
    codes = [code for one in said if one.kind != "tuning" and (code := one.text("string"))]
    early = _EARLY * len(items)
    declared = [one for one in said if one.kind == "instrument" and one.text("instrument") != LOW_B]
    sure = [one for one in declared if one.text("label") != WEAK]
    low = [one for one in said if one.text("instrument") == LOW_B and one.start <= early]
    codes += [LOW_B] * len(low)
    found = _read_out(said, codes) or _declared(sure, codes, early)
    found = found or _mentioned(said, declared, codes, items, words)
    if found == BASS and (low or codes.count(LOW_B) >= _TWICE or codes.count("#5") >= _TWICE):
        return FIVE
    retuned = any(one.kind == "tuning" and one.text("tuning") not in (None, "standard") for one in said)
    beyond = codes.count("#7") >= _TWICE or (not retuned and (low or codes.count(LOW_B) >= _NOTES))
    if found in (None, GUITAR) and beyond:
        return SEVEN
    six = any(one.text("instrument") == GUITAR for one in declared) and not _own(codes, SEVEN)
    return GUITAR if found == SEVEN and six else found


def _declared(declared: list[Instruction], codes: list[str], early: float) -> str | None:
    """The first instrument that is declared early or often, and whose strings are named."""
    names = [one.text("instrument") or "" for one in declared]
    for one, name in zip(declared, names, strict=True):
        told = one.start <= early or names.count(name) > _PASSING
        if told and _lacking(codes, name) <= _SLIPS:
            return name
    return None


def _lacking(codes: list[str], instrument: str) -> float:
    """The share of the strings named in the talk that a guitar has and the instrument lacks."""
    here, guitar = _names(instrument), _names(GUITAR)
    usual = [code for code in codes if guitar.resolve(code, ())]
    return sum(not here.resolve(code, ()) for code in usual) / max(1, len(usual))


def _names(instrument: str) -> StringNames:
    return StringNames(standard(instrument), standard(instrument))


def _read_out(said: tuple[Instruction, ...], codes: list[str]) -> str | None:
    """The instrument whose strings are read out, and are the only ones named."""
    for one in said:
        letters = [str(letter) for letter in one.all("letters")]
        for instrument in (BASS, FIVE, SEVEN, UKULELE):
            strings = [pitch[:-1] for pitch in reversed(standard(instrument))]
            if one.kind == "tuning" and letters == strings and _lacking(codes, instrument) <= _SLIPS:
                return instrument
    return None


def _mentioned(
    said: tuple[Instruction, ...],
    declared: list[Instruction],
    codes: list[str],
    items: tuple[Item, ...],
    words: WordLists,
) -> str | None:
    """An instrument that is only mentioned, where the strings named are its own and hardly a guitar is."""
    taken = frozenset(at for one in said if one.kind == "instrument" for at in range(one.start, one.end))
    bare = claims(tuple(_bare(items, words, taken)), items, words)
    guitars = sum(item.text in words.guitars for item in items)
    for name in (UKULELE, FIVE, SEVEN, BASS):
        told = [one.start for one in (*declared, *bare) if one.text("instrument") == name]
        early = any(at <= _EARLY * len(items) for at in told)
        own = _own(codes, name)
        enough = own > 0 if name == SEVEN else len(codes) >= _ENOUGH or own >= _TWICE
        at_once = name == BASS and any(at <= _AT_ONCE * len(items) for at in told)
        proven = at_once and len(codes) >= _MANY and not _lacking(codes, name)
        if early and enough and (proven or len(told) >= guitars) and _lacking(codes, name) <= _SLIPS:
            return name
    return None


def _own(codes: list[str], instrument: str) -> int:
    """How often a string is named that the instrument has and a guitar lacks."""
    here, guitar = _names(instrument), _names(GUITAR)
    return sum(bool(here.resolve(code, ())) and not guitar.resolve(code, ()) for code in codes)


def _bare(items: tuple[Item, ...], words: WordLists, taken: frozenset[int]) -> Iterator[Instruction]:
    """Every bare mention of an instrument that no wording took, as if it were declared."""
    for at, item in enumerate(items):
        for name, spoken in ((BASS, words.basses), (UKULELE, words.ukuleles)):
            if item.text in spoken and at not in taken:
                slot = SlotValue("instrument", name, at, at + 1)
                yield Instruction("instrument", at, at + 1, (slot,))
