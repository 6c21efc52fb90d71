"""A draft with the teacher's decisions made: the lesson as it is published, and the decisions left over."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from notesgen.checks.run import fresh_flags
from notesgen.decisions.answered import BY_THE_WAY, answers, left_of, with_answers
from notesgen.decisions.carry import Placed, place
from notesgen.decisions.model import Decision
from notesgen.decisions.phrasing import rephrased
from notesgen.decisions.rows import Row, edited_rows, split_name
from notesgen.decisions.written import write_rows
from notesgen.lesson.evidence import Evidence
from notesgen.lesson.model import Event, Flag, Lesson
from notesgen.settle.events import number_flags, point_at_flags
from notesgen.settle.settle import Settled


class Applied(Struct, frozen=True):
    """The lesson with all decisions that found their place, and those that fit nothing any more.

    `answers` has the decision on each answered flag, by the flag's id.
    """

    lesson: Lesson
    unplaced: tuple[Decision, ...] = ()
    answers: dict[str, Decision] = {}


def checked(draft: Settled) -> Lesson:
    """The draft with the flags of the checks, before any decision."""
    raised = fresh_flags(draft.lesson, draft.evidence)
    events, flags = number_flags(draft.lesson.events, (*draft.lesson.flags, *raised))
    return replace(draft.lesson, events=events, flags=flags)


def settled(draft: Settled, decisions: Sequence[Decision], base: Lesson | None = None) -> Applied:
    """The draft with the decisions made. What they change is checked anew: an answer may settle other
    questions, and may raise some.

    Event ids stay; events written by an answer get ids made of their neighbour's. Flags keep the ids that
    they have without decisions, also when they are settled; new ones come after. Deterministic. `base` is
    `checked(draft)`, for who has it at hand.
    """
    base = base or checked(draft)
    placed = place(base, tuple(dict.fromkeys(decisions)))
    fitting = [one for one in placed if one.fits]
    if not fitting:
        return Applied(base, tuple(one.decision for one in placed))
    rows = edited_rows(base.events, fitting)
    lesson, lost = rephrased(base, write_rows(base, rows, _recaps(fitting)), rows, fitting)
    flags, found = _flags(draft, base, lesson, rows, fitting)
    events = point_at_flags(lesson.events, flags)
    unplaced = tuple(one.decision for one in placed if not one.fits or one.decision in lost)
    return Applied(replace(lesson, events=events, flags=flags), unplaced, found)


def _recaps(placed: Sequence[Placed]) -> frozenset[str]:
    return frozenset(event for one in placed if one.decision.recap for event in one.events if event)


def _flags(
    draft: Settled, base: Lesson, lesson: Lesson, rows: dict[str, Row], placed: Sequence[Placed]
) -> tuple[tuple[Flag, ...], dict[str, Decision]]:
    """All flags of the base with their answers, then those that only the decisions raise; and the answers."""
    found = answers(base.flags, placed)
    heard = {_same(flag) for flag in draft.lesson.flags}
    said = with_answers((flag for flag in base.flags if _same(flag) in heard), found, rows)
    moved = {event.id for event in lesson.events if event.origin == "decided"}
    asking = tuple(flag for flag in said if not (flag.decided and moved & set(flag.events)))
    raised = fresh_flags(replace(lesson, flags=asking), _evidence(draft.evidence, lesson.events, rows))
    again = {_asked(flag): flag for flag in raised}
    known = {}
    for flag in base.flags:
        if _same(flag) not in heard:
            still = again.pop(_asked(flag), None)
            settled_by = None if still else BY_THE_WAY
            answer = found[flag.id].answer if flag.id in found else settled_by
            known[flag.id] = _kept(flag, still, answer, rows)
    known |= {flag.id: flag for flag in said}
    new = tuple(
        replace(flag, id=f"f{number}")
        for number, flag in enumerate(again.values(), start=len(base.flags) + 1)
    )
    found |= answers(new, placed)
    raised_now = (replace(f, decided=found[f.id].answer) if f.id in found else f for f in new)
    return (*(known[flag.id] for flag in base.flags), *raised_now), found


def _kept(flag: Flag, still: Flag | None, answer: str | None, rows: dict[str, Row]) -> Flag:
    """A check's flag of the base: as it is raised now, or as it was, with its answer."""
    if still is not None:
        return replace(still, id=flag.id, decided=answer)
    return left_of(flag, answer, rows)


def _asked(flag: Flag) -> tuple[object, ...]:
    """What a question is about: its notes, or its place and message where it has none."""
    return (flag.kind, flag.events) if flag.events else (flag.kind, flag.start, flag.message)


def _same(flag: Flag) -> tuple[object, ...]:
    return flag.kind, flag.level, flag.start, flag.events, flag.message, flag.quote


def _evidence(evidence: Evidence, events: Sequence[Event], rows: dict[str, Row]) -> Evidence:
    """What was said of a note holds for its further strokes. What the teacher decided is sure, and meant: no
    key speaks against it."""
    decided = {name for row in rows.values() for name, fields in row.decided.items() if "notes" in fields}
    added = {event.id: split_name(event.id)[0] for event in events}
    outside = {name for name, host in added.items() if host in evidence.outside}
    sure = {name for name, host in added.items() if host in evidence.sure and name not in decided}
    return replace(evidence, outside=frozenset(outside | decided), sure=frozenset(sure | decided))
