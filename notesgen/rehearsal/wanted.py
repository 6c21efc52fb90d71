"""Instructions as an example writes them: kind, then slots. `scope string=G`, `key tonic=B mode=minor`.

Slots that the example does not name may hold anything. A slot with several values is written with spaces
between them, or by its first value alone.
"""

from __future__ import annotations

import re

from msgspec import Struct

from notesgen.speech.instructions import Instruction

_SLOT = re.compile(r"(\w+)=(.*?)(?=\s+\w+=|$)")


class Wanted(Struct, frozen=True):
    """An instruction's kind and the slots that matter."""

    kind: str
    slots: dict[str, str]

    def fits(self, instruction: Instruction) -> bool:
        """Whether the instruction is of this kind and its slots hold these values."""
        return self.kind == instruction.kind and all(
            value in _texts(instruction, name) for name, value in self.slots.items()
        )


def parse(text: str) -> Wanted:
    """Reads one instruction of an example."""
    kind, _, rest = text.strip().partition(" ")
    return Wanted(kind, {name: value.strip() for name, value in _SLOT.findall(rest)})


def told(instruction: Instruction) -> str:
    """The instruction as an example would write it, all slots named."""
    names = dict.fromkeys(slot.name for slot in instruction.slots)
    return " ".join([instruction.kind, *(f"{name}={_joined(instruction, name)}" for name in names)])


def _texts(instruction: Instruction, name: str) -> set[str]:
    return {_joined(instruction, name), *map(str, instruction.all(name)[:1])}


def _joined(instruction: Instruction, name: str) -> str:
    return " ".join(map(str, instruction.all(name)))
