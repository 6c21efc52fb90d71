"""What the lesson declares: instrument, tuning, capo, key, tempo, and where each comes from."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from msgspec import Struct

from notesgen.grammar.model import WordLists
from notesgen.lesson.model import FactChange, FactOrigin, Key
from notesgen.music.pitch import midi
from notesgen.music.tuning import named, nearest, parse_tuning, standard
from notesgen.settle.claims import claims
from notesgen.settle.keys import said_keys
from notesgen.settle.strings import StringNames
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Item

T = TypeVar("T")

FROM_HIGH = "high to low"  # the slot "order" of strings that are read out from the thin side
HIGHEST_CAPO = 12  # frets; above it no capo is put

_EARLY = 0.15  # an instrument said within this share of the talk is the lesson's
_PASSING = 2  # mentions of an instrument later in the talk that prove nothing
_SLIPS = 0.1  # share of misheard string names that does not speak against an instrument


class Declared(Struct, frozen=True):
    """The facts of one lesson before its notes are known.

    `tuning` holds the sounding strings, `usual` the instrument's standard ones; string 1 first.
    """

    instrument: str
    tuning: tuple[str, ...]
    usual: tuple[str, ...]
    capo: int
    key: Key | None
    tempo: float | None
    changes: tuple[FactChange, ...]
    origin: dict[str, FactOrigin]


def declared(
    instructions: Iterable[Instruction],
    items: tuple[Item, ...],
    quote: dict[int, str],
    words: WordLists,
    *,
    key: Key | None = None,
    tuning: tuple[str, ...] | None = None,
    capo: int | None = None,
    instrument: str | None = None,
) -> Declared:
    """Facts from what was said, with what was given put above it. `quote` maps an item to its words."""
    said = claims(tuple(instructions), items, words)
    origin: dict[str, FactOrigin] = {}
    kind = _pick(origin, "instrument", instrument, _said_instrument(said, len(items)), "guitar")
    usual = standard(kind)
    strings = _pick(origin, "tuning", tuning, _said_tuning(said, kind), usual)
    capos = [c for i in said if i.kind == "capo" and (c := i.whole("capo")) is not None and c <= HIGHEST_CAPO]
    place = _pick(origin, "capo", capo, capos[0] if capos else None, 0)
    told = said_keys(said, items, words)
    main = _pick(origin, "key", key, told.main, None)
    tempi = [t for i in said if i.kind == "tempo" and (t := i.number("tempo"))]
    changes = [FactChange(items[at].start, "key", new, quote.get(at, "")) for at, new in told.changes]
    if any(i.kind == "naming" for i in said) or _is_lowered(strings, usual):
        changes.insert(0, FactChange(0.0, "naming", "standard", ""))
    return Declared(kind, strings, usual, place, main, tempi[0] if tempi else None, tuple(changes), origin)


def _pick(origin: dict[str, FactOrigin], fact: str, given: T | None, said: T | None, assumed: T) -> T:
    """The value that counts, noting in `origin` which of the three it is."""
    if given is not None:
        origin[fact] = "given"
        return given
    origin[fact] = "assumed" if said is None else "said"
    return assumed if said is None else said


def _said_instrument(said: tuple[Instruction, ...], size: int) -> str | None:
    """The instrument named at the start of the talk, or often; a passing mention is no sign.

    Nor is a mention at the start, where the talk goes on to name strings that the instrument lacks.
    """
    mentions = [(i.start, i.text("instrument") or "") for i in said if i.kind == "instrument"]
    for at, name in mentions:
        often = [other for _, other in mentions].count(name) > _PASSING
        if often or (at <= _EARLY * size and _lacking(said, name) <= _SLIPS):
            return name
    return None


def _lacking(said: tuple[Instruction, ...], instrument: str) -> float:
    """The share of the strings named in the talk that a guitar has and the instrument lacks."""
    here = StringNames(standard(instrument), standard(instrument))
    guitar = StringNames(standard("guitar"), standard("guitar"))
    codes = [code for i in said if (code := i.text("string")) and guitar.resolve(code, ())]
    return sum(not here.resolve(code, ()) for code in codes) / max(1, len(codes))


def _said_tuning(said: tuple[Instruction, ...], instrument: str) -> tuple[str, ...] | None:
    """The last tuning that is not plain standard; standard only when nothing else was said.

    The high string alone may be said to be retuned as well: drop D with it is double drop D.
    """
    usual = standard(instrument)
    found: tuple[str, ...] | None = None
    high: str | None = None
    for instruction in said:
        if instruction.kind != "tuning":
            continue
        if instruction.text("high"):
            high = instruction.text("high")
            continue
        strings = _tuning_of(instruction, instrument)
        if strings and (found is None or strings != usual):
            found = strings
    if high is None:
        return found
    return (nearest(high, usual[0]), *(found or usual)[1:])


def _tuning_of(instruction: Instruction, instrument: str) -> tuple[str, ...] | None:
    letters = [str(letter) for letter in instruction.all("letters")]
    try:
        if letters:
            from_low = instruction.text("order") != FROM_HIGH
            return parse_tuning(" ".join(letters if from_low else reversed(letters)), instrument)
        return named(instruction.text("tuning") or "", instrument)
    except ValueError:
        return None


def _is_lowered(strings: tuple[str, ...], usual: tuple[str, ...]) -> bool:
    """Whether all strings are lowered alike, as in "half a step down"."""
    if len(strings) != len(usual) or strings == usual:
        return False
    return len({midi(a) - midi(b) for a, b in zip(strings, usual, strict=True)}) == 1
