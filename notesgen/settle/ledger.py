"""The ledger of numbers: each number of the talk, and the one thing that it turned out to be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from notesgen.lesson.model import Event, Number
from notesgen.settle.talk import Talk
from notesgen.speech.chart import Edge
from notesgen.speech.instructions import Instruction
from notesgen.speech.numbers import HIGHEST_FRET

_NOTE_ROLES = {
    **dict.fromkeys(("fret", "from", "to", "via", "other_fret"), "fret"),
    **dict.fromkeys(("string", "other_string"), "string"),
    "target": "bend target",
    "what": "withdrawn",
}


def ledger(
    numbers: Sequence[Edge],
    instructions: tuple[Instruction, ...],
    events: Mapping[int, Sequence[Event]],
    special: Mapping[int, str],
    talk: Talk,
) -> tuple[Number, ...]:
    """One entry for each of the numbers, which hold one reading of each number said (see `once`).

    `events` maps a number's item to the events that its words gave, `special` to a role that overrides.
    """
    owner = {at: said for said in instructions for at in range(said.start, said.end)}
    slips = {one.start for one, following in pairwise(instructions) if following.kind == "correction"}
    entries = []
    left: dict[str, Sequence[Event]] = {}  # by its first event, what of a wording its frets have not taken
    for edge in numbers:
        said = owner.get(edge.start)
        role = special.get(edge.start) or (_role(said, edge) if said else "not understood")
        told = events.get(edge.start, ())
        if role == "fret" and not told and said and said.start in slips:
            role = "withdrawn"
        event = told[-1].id if told else None
        if role == "fret" and told:
            rest = left.get(told[0].id, told)
            at = _place(rest, edge)
            event = rest[at].id
            left[told[0].id] = rest[at + 1 :] or rest[at:]
        value = edge.value if isinstance(edge.value, int | float) else 0
        entries.append(Number(talk.quote(edge.start, edge.end), value, talk.start(edge.start), role, event))
    return tuple(entries)


def once(numbers: Sequence[Edge]) -> list[Edge]:
    """One reading for each number, in the order said: the widest; digits run together as they stand."""
    ordered = sorted(numbers, key=lambda e: (e.start, -e.end, isinstance(e.value, tuple)))
    kept: list[Edge] = []
    for edge in ordered:
        if not kept or edge.start >= kept[-1].end:
            kept.append(edge)
    return kept


def _place(events: Sequence[Event], edge: Edge) -> int:
    """Which event a fret gave: the first that has it, else the last; digits run together, the first."""
    if isinstance(edge.value, int) and edge.value > HIGHEST_FRET:
        return 0
    found = (at for at, event in enumerate(events) if any(n.fret == edge.value for n in event.notes))
    return next(found, len(events) - 1)


def _role(said: Instruction, edge: Edge) -> str:
    """The role of a number inside an instruction: that of its slot, else that of the instruction."""
    for slot in said.slots:
        if slot.start <= edge.start < slot.end:
            return _NOTE_ROLES.get(slot.name, slot.name.replace("_", " "))
    roles = {"aside": "remark", "anew": "remark", "recap": "recap", "section": "heading"}
    return roles.get(said.kind, said.kind)
