"""Undo and redo over `decisions.toml`, without limit: a step is a decision, and the one whose place it took.

After a restart, the decisions that the file holds are the steps that can be undone.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct

from notesgen.decisions.model import Decision
from notesgen.decisions.rewriting import behind, rewrite
from notesgen.decisions.store import Entry, read_decisions, same_matter


class Step(Struct, frozen=True):
    """A decision that was made, and what stood before: the former decision on the same matter, and its place
    among all."""

    made: Entry
    former: Decision | None = None
    place: int = 0


class Steps:
    """The steps of one lesson. All methods raise InputError when the file cannot be read or written."""

    def __init__(self, file: Path) -> None:
        self._file = file
        self._signature: tuple[int, int] | None = None
        self._decisions: tuple[Decision, ...] = ()
        self._undone: list[Step] = []
        self._done = [Step(Entry(decision)) for decision in self.decisions()]

    def decisions(self) -> tuple[Decision, ...]:
        """All decisions that stand in the file now, whoever wrote them; the last word counts."""
        signature = _signature(self._file)
        if signature is None or signature != self._signature:
            self._decisions = read_decisions(self._file)
            self._signature = signature
        return self._decisions

    @property
    def can_undo(self) -> bool:
        """Whether a decision that was made here still stands in the file."""
        return any(step.made.decision in self._decisions for step in self._done)

    @property
    def can_redo(self) -> bool:
        """Whether a step was taken back."""
        return bool(self._undone)

    def make(self, entry: Entry, amends: bool = False) -> None:
        """Keeps a decision, behind all others. One that amends the last step becomes a part of that step."""
        step = self._write(entry)
        if amends and self._done and self._done[-1].made.decision == step.former:
            first = self._done.pop()
            step = Step(entry, first.former, first.place)
        self._done.append(step)
        self._undone.clear()

    def undo(self) -> Decision | None:
        """Takes the last step back, and returns its decision; None when nothing is left to undo.

        A step whose decision somebody took out of the file meanwhile is passed over.
        """
        while self._done:
            step = self._done[-1]
            stands = step.made.decision in self.decisions()
            if stands:
                rewrite(self._file, lambda held, step=step: _without(held, step))  # type: ignore[misc]
                self._undone.append(step)
            self._done.pop()  # not before the file is written: where that fails, the step stays
            if stands:
                return step.made.decision
        return None

    def redo(self) -> Decision | None:
        """Takes the last step again that was undone."""
        if not self._undone:
            return None
        made = self._undone[-1].made
        self._done.append(self._write(made))
        self._undone.pop()
        return made.decision

    def _write(self, entry: Entry) -> Step:
        """Puts a decision behind all others, and the former one on the same matter out."""
        found = Step(entry)

        def with_entry(held: Sequence[Decision]) -> list[Entry]:
            nonlocal found
            places = [n for n, old in enumerate(held) if same_matter(old, entry.decision)]
            if places:
                found = Step(entry, held[places[0]], places[0])
            return behind(map(Entry, held), entry)

        self._file.parent.mkdir(parents=True, exist_ok=True)
        rewrite(self._file, with_entry)
        return found


def _without(held: Sequence[Decision], step: Step) -> list[Entry]:
    """The decisions as they stood before the step."""
    left = [Entry(old) for old in held if old != step.made.decision]
    if step.former is not None:
        left.insert(step.place, Entry(step.former))
    return left


def _signature(file: Path) -> tuple[int, int] | None:
    """What changes whenever the file is replaced: a new file takes its name each time."""
    try:
        found = file.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_ino
