"""From which doubt on the teacher is asked: the one number behind `--ask`."""

from __future__ import annotations

from enum import StrEnum


class Ask(StrEnum):
    """How readily a draft asks.

    `chance` is the probability, from 0 to 1, that a passage holds a wrong note, from which it becomes a
    query. A silent wrong note costs the teacher more than a question: at the normal level five needless
    questions are thought worth one wrong note found.
    """

    LESS = "less"
    NORMAL = "normal"
    MORE = "more"

    @property
    def chance(self) -> float:
        """The probability of a wrong note from which a passage is asked about."""
        return {Ask.LESS: 0.45, Ask.NORMAL: 0.17, Ask.MORE: 0.12}[self]
