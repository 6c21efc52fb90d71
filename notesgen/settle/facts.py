"""What the lesson declares: instrument, tuning, capo, key, tempo, and where each comes from."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from msgspec import Struct

from notesgen.grammar.model import WordLists
from notesgen.lesson.model import FactChange, FactOrigin, Key
from notesgen.music.tuning import as_named, standard
from notesgen.settle.claims import claims
from notesgen.settle.instruments import said_instrument
from notesgen.settle.keys import said_keys
from notesgen.settle.letter_tunings import letter_tunings
from notesgen.settle.tunings import said_tuning
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Item

T = TypeVar("T")

HIGHEST_CAPO = 12  # frets; above it no capo is put


class Declared(Struct, frozen=True):
    """The facts of one lesson before its notes are known.

    `tuning` holds the sounding strings, `written` those by which notes are named, without what lowers them
    all alike, `usual` the instrument's standard ones; string 1 first.
    """

    instrument: str
    tuning: tuple[str, ...]
    written: tuple[str, ...]
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
    spoken = tuple(instructions)
    read_out = letter_tunings(spoken, items, words)
    said = claims(tuple(sorted((*spoken, *read_out), key=lambda one: one.start)), items, words)
    origin: dict[str, FactOrigin] = {}
    kind = _pick(origin, "instrument", instrument, said_instrument(said, items, words), "guitar")
    usual = standard(kind)
    tuned = said_tuning(said, kind)
    strings = _pick(origin, "tuning", tuning, tuned.strings if tuned else None, usual)
    capos = [c for i in said if i.kind == "capo" and (c := i.whole("capo")) is not None and c <= HIGHEST_CAPO]
    place = _pick(origin, "capo", capo, capos[0] if capos else None, 0)
    told = said_keys(said, items, words)
    main = _pick(origin, "key", key, told.main, None)
    tempi = [t for i in said if i.kind == "tempo" and (t := i.number("tempo"))]
    changes = [FactChange(items[at].start, "key", new, quote.get(at, "")) for at, new in told.changes]
    alike = tuning is None and tuned is not None and tuned.alike
    by_name = as_named(strings, usual)
    if alike or any(i.kind == "naming" for i in said) or by_name == usual != strings:
        changes.insert(0, FactChange(0.0, "naming", "standard", ""))
    written = by_name if any(change.fact == "naming" for change in changes) else strings
    return Declared(
        kind, strings, written, usual, place, main, tempi[0] if tempi else None, tuple(changes), origin
    )


def _pick(origin: dict[str, FactOrigin], fact: str, given: T | None, said: T | None, assumed: T) -> T:
    """The value that counts, noting in `origin` which of the three it is."""
    if given is not None:
        origin[fact] = "given"
        return given
    origin[fact] = "assumed" if said is None else "said"
    return assumed if said is None else said
