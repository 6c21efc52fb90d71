"""Runs every check in the folder over a settled lesson."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterator

import notesgen.checks
from notesgen.checks.alike import asked_once
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Flag, Lesson

Check = Callable[[Lesson, Evidence], Iterator[Flag]]


def checks() -> dict[str, Check]:
    """Every check by its module's name: any module of the folder that has a function `check`."""
    found = {}
    for module in pkgutil.iter_modules(notesgen.checks.__path__):
        loaded = importlib.import_module(f"notesgen.checks.{module.name}")
        if hasattr(loaded, "check"):
            found[module.name] = loaded.check
    return found


def run_checks(lesson: Lesson, evidence: Evidence) -> tuple[Flag, ...]:
    """All flags that the checks raise, in the order of the lesson. Ids are empty: the caller numbers them."""
    raised = [flag for check in checks().values() for flag in check(lesson, evidence)]
    return tuple(sorted(raised, key=lambda flag: (flag.start, flag.kind, flag.events)))


def fresh_flags(lesson: Lesson, evidence: Evidence) -> tuple[Flag, ...]:
    """The checks' flags, but for notes already asked about: one question settles what the other would ask.
    What is the same throughout a phrase is asked once."""
    asked = {event for f in lesson.flags if f.kind in ("string-unsaid", "fret-unsure") for event in f.events}
    raised = (
        f
        for f in run_checks(lesson, evidence)
        if f.kind not in ("outside-key", "outside-position") or not asked & set(f.events)
    )
    return asked_once(raised, {event.id: event.phrase for event in lesson.events})
