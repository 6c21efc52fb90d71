"""The figures as lines of text and as plain values for JSON."""

from __future__ import annotations

from typing import Any

from msgspec import to_builtins

from tests.accuracy.figures import Facts, Figures, Wrong


def row(figures: Figures) -> str:
    """One line for one lesson. Facts: T(uning) C(apo) K(ey), "-" where wrong."""
    f = figures
    traps = " ".join(f"{kind}={passed}/{count}" for kind, (count, passed) in f.trap_counts.items())
    return (
        f"{f.case:<22} notes {f.draft:>3}/{f.gold:<3} F1 {f.note_f1:.3f} pitch {f.pitch_f1:.3f}"
        f" how {f.how:.3f} detail {f.detail:.2f} silent {f.silent:>3} ({100 * f.silent_rate:.1f}%)"
        f" flags/100 {f.flags_per_100:.1f} idle {f.idle} facts {_letters(f.facts)} {traps}".rstrip()
    )


def wrong_rows(figures: Figures) -> list[str]:
    """One line for each note that is wrong, missing or surplus."""
    return [_wrong(wrong) for wrong in figures.wrong]


def values(figures: Figures) -> dict[str, Any]:
    """The figures by name, in plain values. `traps` gives [count, passed] by kind of doubt."""
    f = figures
    return {
        "case": f.case,
        "gold": f.gold,
        "draft": f.draft,
        "precision": f.precision,
        "recall": f.recall,
        "f1": f.note_f1,
        "pitch_f1": f.pitch_f1,
        "how": f.how,
        "detail": f.detail,
        "silent": f.silent,
        "silent_rate": f.silent_rate,
        "traps": {kind: list(counts) for kind, counts in f.trap_counts.items()},
        "flags": f.flags,
        "idle": f.idle,
        "flags_per_100": f.flags_per_100,
        **to_builtins(f.facts),
        "wrong": to_builtins(f.wrong),
    }


def _letters(facts: Facts) -> str:
    pairs = (("T", facts.tuning), ("C", facts.capo), ("K", facts.key))
    return "".join(letter if right else "-" for letter, right in pairs)


def _wrong(wrong: Wrong) -> str:
    minutes, seconds = divmod(int(wrong.time), 60)
    state = "flagged" if wrong.flagged else "SILENT"
    return (
        f"   {minutes}:{seconds:02d}  gold {wrong.gold}  draft {wrong.draft}  {state} {wrong.doubt}".rstrip()
    )
