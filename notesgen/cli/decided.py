"""What became of the teacher's decisions, in a few lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from notesgen.cli.screen import counted, wrapped

if TYPE_CHECKING:
    from notesgen.decisions.model import Decision

WIDEST_WORDS = 60  # characters of words quoted


def told(decisions: Sequence[Decision], unplaced: Sequence[Decision]) -> Iterator[str]:
    """How many answers hold, and each that fits nothing any more. Nothing where nothing was decided."""
    if not decisions:
        return
    kept = len(decisions) - len(unplaced)
    yield ""
    yield f"{counted(kept, 'answer')} of yours {'holds' if kept == 1 else 'hold'}."
    if unplaced:
        yield from wrapped(
            f"{counted(len(unplaced), 'answer')} no longer "
            f"{'fits' if len(unplaced) == 1 else 'fit'} anything in the draft. decisions.toml still has them:"
        )
    for decision in unplaced:
        yield from wrapped(f"- {line(decision)}", 2, hang=2)


def line(decision: Decision) -> str:
    """'1:32  "Then it's 6," (string-unsaid): on the B string'."""
    from notesgen.pack.layout.clock import clock

    words = decision.words if len(decision.words) <= WIDEST_WORDS else f"{decision.words[:WIDEST_WORDS]}..."
    asked = f" ({decision.asked})" if decision.asked else ""
    return f'{clock(decision.at)}  "{words}"{asked}: {decision.answer}'
