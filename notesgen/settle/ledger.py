"""The ledger of numbers: each number of the talk, and the one thing that it turned out to be."""

from __future__ import annotations

from notesgen.lesson.model import Number
from notesgen.settle.talk import Talk
from notesgen.speech.chart import Edge
from notesgen.speech.instructions import Instruction

_NOTE_ROLES = {
    **dict.fromkeys(("fret", "from", "to", "via", "other_fret"), "fret"),
    **dict.fromkeys(("string", "other_string", "third_string"), "string"),
    "target": "bend target",
    "what": "withdrawn",
}


def ledger(
    numbers: list[Edge],
    instructions: tuple[Instruction, ...],
    events: dict[int, str],
    special: dict[int, str],
    talk: Talk,
) -> tuple[Number, ...]:
    """One entry a number. `events` maps a number's item to its event, `special` to a role that overrides."""
    owner = {at: said for said in instructions for at in range(said.start, said.end)}
    entries = []
    for edge in numbers:
        said = owner.get(edge.start)
        role = special.get(edge.start) or (_role(said, edge) if said else "not understood")
        value = edge.value if isinstance(edge.value, int | float) else 0
        entries.append(
            Number(
                talk.quote(edge.start, edge.end), value, talk.start(edge.start), role, events.get(edge.start)
            )
        )
    return tuple(entries)


def _role(said: Instruction, edge: Edge) -> str:
    """The role of a number inside an instruction: that of its slot, else that of the instruction."""
    for slot in said.slots:
        if slot.start <= edge.start < slot.end:
            return _NOTE_ROLES.get(slot.name, slot.name.replace("_", " "))
    return {"aside": "remark", "recap": "recap", "section": "heading"}.get(said.kind, said.kind)
