"""What one idiom found in the talk says, with holes where it says nothing."""

from __future__ import annotations

from msgspec import Struct

from notesgen.speech.chart import Value


class SlotValue(Struct, frozen=True):
    """A filled slot. `start` and `end` index the items that said it."""

    name: str
    value: Value
    start: int
    end: int


class Instruction(Struct, frozen=True):
    """One thing said. `kind` is one of `notesgen.grammar.kinds.KINDS`; `start` and `end` index items.

    `doubt` is 0 for a sure reading; it grows with odd surroundings, misheard words, commas inside and the
    idiom's own cost. `misheard` says what was heard and what it was read as.
    """

    kind: str
    start: int
    end: int
    slots: tuple[SlotValue, ...] = ()
    idiom: str = ""
    wording: str = ""
    doubt: float = 0.0
    misheard: tuple[str, ...] = ()

    def all(self, name: str) -> tuple[Value, ...]:
        """Every value of the slot, in the order said; lists laid flat."""
        flat: list[Value] = []
        for slot in self.slots:
            if slot.name == name:
                flat.extend(slot.value if isinstance(slot.value, tuple) else (slot.value,))
        return tuple(flat)

    def text(self, name: str) -> str | None:
        """The first value of the slot as text; None when the slot is empty."""
        found = self.all(name)
        return None if not found or found[0] is None else str(found[0])

    def number(self, name: str) -> float | None:
        """The first value of the slot as a number; None when empty or no number."""
        found = self.all(name)
        return float(found[0]) if found and isinstance(found[0], int | float) else None

    def whole(self, name: str) -> int | None:
        """The first value of the slot as a whole number; None when empty or no number."""
        found = self.number(name)
        return None if found is None else int(found)
