"""Every check has its cases in NAME.toml beside this file, a flagged and a clean one at least."""

from __future__ import annotations

import importlib
import re
import tomllib
from pathlib import Path
from typing import Any, get_args

import pytest
from msgspec import structs

from notesgen.checks.run import checks, run_checks
from notesgen.lesson.model import Change, Event, Flag, FlagKind, Lesson, Option
from tests.checks.notation import Case, read_case

FOLDER = Path(__file__).parent
CHECKS = checks()
HEADINGS = ["What it flags", "Why it matters", "Example", "What to do"]
FIELDS = {"name", "events", "key", "tuning", "instrument", "capo", "changes", "positions"} | {
    "outside",
    "sure",
    "counted",
    "spelled",
    "heard",
    "likely",
    "at",
    "says",
    "offers",
}


def cases(name: str) -> list[dict[str, Any]]:
    """The cases of a check; [] without a file."""
    file = FOLDER / f"{name}.toml"
    found: list[dict[str, Any]] = tomllib.loads(file.read_text("utf-8"))["case"] if file.exists() else []
    return found


ALL_CASES = [
    pytest.param(name, case, id=f"{name}: {case['name']}") for name in CHECKS for case in cases(name)
]


def flags(name: str, case: Case) -> tuple[Flag, ...]:
    return tuple(CHECKS[name](case.lesson, case.evidence))


@pytest.mark.parametrize(("name", "written"), ALL_CASES)
def test_case(name: str, written: dict[str, Any]) -> None:
    assert written.keys() <= FIELDS, "misspelt field"
    case = read_case(written)
    raised = flags(name, case)
    assert [(flag.events[0], flag.level) for flag in raised if flag.events] == list(case.flags)
    at = [[flag.start, flag.level] for flag in raised if not flag.events]
    assert at == written.get("at", [])
    for words in written.get("says", ()):
        assert words.lower() in raised[0].message.lower()
    if "offers" in written:
        assert [option.label for option in raised[0].options] == written["offers"]


@pytest.mark.parametrize(("name", "written"), ALL_CASES)
def test_every_other_reading_answers_the_question(name: str, written: dict[str, Any]) -> None:
    case = read_case(written)
    for flag in flags(name, case):
        for option in flag.options[1:] if flag.events else ():
            answered = structs.replace(case, lesson=chosen(case.lesson, option))
            assert asked(name, answered, flag) < asked(name, case, flag), option.label


def asked(name: str, case: Case, flag: Flag) -> int:
    return sum(other.events[:1] == flag.events[:1] for other in flags(name, case))


def chosen(lesson: Lesson, option: Option) -> Lesson:
    """The lesson once that answer is given."""
    assert option.change, "only the first option keeps the draft"
    events = lesson.events
    for change in option.change:
        assert change.event in {event.id for event in events}
        events = tuple(
            edited(event, change) if event.id == change.event else event
            for event in events
            for _ in range((change.times or 1) if event.id == change.event else 1)
            if not (change.drop and event.id == change.event)
        )
    return structs.replace(lesson, events=events)


def edited(event: Event, change: Change) -> Event:
    fields = {name: getattr(change, name) for name in ("notes", "how", "bend", "to")}
    return structs.replace(event, **{name: value for name, value in fields.items() if value is not None})


@pytest.mark.parametrize("name", CHECKS)
def test_a_check_is_complete(name: str) -> None:
    module = importlib.import_module(f"notesgen.checks.{name}")
    assert module.KIND in get_args(FlagKind)
    assert re.findall(r"^## (.+)$", module.__doc__ or "", re.MULTILINE) == HEADINGS
    raised = [bool(read_case(case).flags or case.get("at")) for case in cases(name)]
    assert True in raised, f"{name}.toml needs a case that is flagged"
    assert False in raised, f"{name}.toml needs a case that is clean"


def test_every_file_of_cases_has_its_check() -> None:
    assert {file.stem for file in FOLDER.glob("*.toml")} <= CHECKS.keys()


@pytest.mark.parametrize("name", CHECKS)
def test_checks_stand_alone(name: str) -> None:
    source = Path(importlib.import_module(f"notesgen.checks.{name}").__file__ or "").read_text("utf-8")
    imported = set(re.findall(r"notesgen\.checks\.(\w+)", source))
    assert not imported & CHECKS.keys()


def test_all_together_in_the_order_of_the_lesson() -> None:
    case = read_case({"key": "A minor", "events": "2/57; 3/7; 3/5 hammer-on; (5/3 4/12); 6/5; 4/4; 4/5"})
    raised = run_checks(case.lesson, case.evidence)
    assert [(flag.kind, flag.events) for flag in raised] == [
        ("off-the-neck", ("e1",)),
        ("wrong-way", ("e3",)),
        ("out-of-reach", ("e4",)),
        ("outside-key", ("e6",)),
    ]
