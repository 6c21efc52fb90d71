"""What is counted for one lesson, and the rates that follow from the counts."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct


class Wrong(Struct, frozen=True):
    """A note that is wrong, missing (no `draft`) or surplus (no `gold`), as "string/fret how"."""

    time: float
    gold: str | None
    draft: str | None
    flagged: bool
    doubt: str


class Trap(Struct, frozen=True):
    """One doubtful note of the right answer: its kind of doubt, and whether the draft passed it."""

    kind: str
    passed: bool


class Facts(Struct, frozen=True):
    """Which of the declared facts are right."""

    tuning: bool
    capo: bool
    key: bool


class Figures(Struct, frozen=True, kw_only=True):
    """The counts for one lesson, or for several taken together."""

    case: str
    gold: int
    draft: int
    exact: int
    pitch_right: int
    how_right: int
    details: int
    details_right: int
    silent: int
    flags: int
    idle: int
    traps: tuple[Trap, ...]
    facts: Facts
    wrong: tuple[Wrong, ...]

    @property
    def precision(self) -> float:
        """Exact notes per drafted note."""
        return _rate(self.exact, self.draft)

    @property
    def recall(self) -> float:
        """Exact notes per gold note."""
        return _rate(self.exact, self.gold)

    @property
    def note_f1(self) -> float:
        """Harmonic mean of precision and recall: 2 exact / (gold + draft)."""
        return _rate(2 * self.exact, self.gold + self.draft)

    @property
    def pitch_f1(self) -> float:
        """As `note_f1`, for notes that sound right on whatever string."""
        return _rate(2 * self.pitch_right, self.gold + self.draft)

    @property
    def how(self) -> float:
        """Techniques right per exact note."""
        return _rate(self.how_right, self.exact)

    @property
    def detail(self) -> float:
        """Details right per detail; 1 where there is none."""
        return _rate(self.details_right, self.details, empty=1.0)

    @property
    def silent_rate(self) -> float:
        """Silent errors per gold note."""
        return _rate(self.silent, self.gold)

    @property
    def flags_per_100(self) -> float:
        """Open queries per 100 gold notes."""
        return 100 * _rate(self.flags, self.gold)

    @property
    def trap_counts(self) -> dict[str, tuple[int, int]]:
        """For each kind of doubt: how many there are, how many are passed."""
        kinds = sorted({trap.kind for trap in self.traps})
        return {kind: _counts([t.passed for t in self.traps if t.kind == kind]) for kind in kinds}


def total(all_figures: Sequence[Figures]) -> Figures:
    """The figures of several lessons as of one long lesson."""

    def add(field: str) -> int:
        return sum(getattr(figures, field) for figures in all_figures)

    return Figures(
        case="ALL",
        gold=add("gold"),
        draft=add("draft"),
        exact=add("exact"),
        pitch_right=add("pitch_right"),
        how_right=add("how_right"),
        details=add("details"),
        details_right=add("details_right"),
        silent=add("silent"),
        flags=add("flags"),
        idle=add("idle"),
        traps=tuple(trap for figures in all_figures for trap in figures.traps),
        facts=Facts(
            tuning=all(figures.facts.tuning for figures in all_figures),
            capo=all(figures.facts.capo for figures in all_figures),
            key=all(figures.facts.key for figures in all_figures),
        ),
        wrong=(),
    )


def _counts(passed: Sequence[bool]) -> tuple[int, int]:
    return len(passed), sum(passed)


def _rate(part: int, whole: int, empty: float = 0.0) -> float:
    return part / whole if whole else empty
