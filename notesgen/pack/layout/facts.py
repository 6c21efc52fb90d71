"""What the lesson declares, in a teacher's words."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import FactChange, Facts, Key
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.strings import tuning_letters, tuning_name

LIKELY_KEY = "likely key"
"""The name in `Facts.changes` of a key that was worked out from the notes."""


def fact_lines(facts: Facts, hedged: bool = True) -> list[tuple[str, str]]:
    """(name, words) for each fact that is known, in the order in which a player needs them.

    `hedged` says of each fact that was not said where it comes from, which is for the teacher to know.
    """
    lines = [] if facts.instrument == "guitar" else [("Instrument", facts.instrument)]
    lines += [("Tuning", tuning_text(facts.tuning, facts.instrument)), ("Capo", capo_text(facts.capo))]
    if facts.key:
        lines.append(("Key", str(facts.key)))
    if facts.tempo:
        lines.append(("Tempo", f"{facts.tempo:g} beats a minute"))
    if hedged:
        lines = [(name, words + _hedge(facts.origin.get(name.lower()))) for name, words in lines]
    return lines + [_change(change, facts.instrument) for change in facts.changes]


def tuning_text(tuning: Sequence[str], instrument: str) -> str:
    """ "D A D G B E, low to high (drop D)"."""
    name = tuning_name(tuning, instrument)
    return f"{tuning_letters(tuning)}, low to high" + (f" ({name})" if name else "")


def capo_text(capo: int) -> str:
    """Where the capo sits, and what that means for the frets."""
    return f"fret {capo}; frets are counted from the capo" if capo else "none"


def _hedge(origin: str | None) -> str:
    hedges = {"assumed": " (assumed: it was not said)", "inferred": " (worked out: it was not said)"}
    return hedges.get(origin or "", "")


def _change(change: FactChange, instrument: str) -> tuple[str, str]:
    """A change as a line of its own: ("Key from 6:42", "A minor")."""
    if change.fact == LIKELY_KEY:
        return "Key", f"probably {change.value}{_hedge('inferred')}"
    name = change.fact[:1].upper() + change.fact[1:]
    return f"{name} from {clock(change.start)}", _value(change.fact, change.value, instrument)


def _value(fact: str, value: Key | int | float | str | tuple[str, ...], instrument: str) -> str:
    if isinstance(value, tuple):
        return tuning_text(value, instrument)
    if fact == "capo" and isinstance(value, int):
        return capo_text(value)
    return f"{value:g}" if isinstance(value, float) else str(value)
