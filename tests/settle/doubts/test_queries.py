"""What the settling asks: kinds, notes, wording and answers, on short talks."""

from __future__ import annotations

import msgspec
import pytest

from notesgen.lesson.model import Event, Flag, Lesson, Option
from notesgen.pipeline import Given
from notesgen.rehearsal import notation
from notesgen.rehearsal.run import hear
from notesgen.settle.trust.ask import Ask

CASES = [
    ("play fret 7, then 9", "string-unsaid", "query", "e1 e2", "No string was said for 7, 9"),
    (
        "play fret 7, and here you want to really let that ring for as long as you can, then 9",
        "string-unsaid",
        "query",
        "e1 e2",
        "No string was said for 7, 9",
    ),
    ("7 on the G twice, or three times", "count-unsure", "query", "e2", '"2 or 3"'),
    ("bend the 7 on the G", "amount-unsure", "query", "e1", "How far to bend 7 on the G string"),
    ("fifth fret on the D, that's a B flat", "fret-unsure", "query", "e1", "You call this note Bb"),
    ("7 on the G 5000 times", "count-unsure", "query", "e1", '"5000"'),
    ("7 on the G, then one of the B", "not-understood", "note", "e1", '"one"'),
    ("7 on the G, 2.5 on the B", "not-understood", "note", "e1", '"2.5"'),
    ("8, no, 10 on the B", "corrected", "note", "e1", "You said 8 first"),
    ("7 on the G, sorry, the D", "corrected", "note", "e1", "You said string 3 first"),
    ("bend the ate on the G a full step", "misheard", "note", "e1", '"ate" for "8"'),
    (
        "5, 7 on the D. 8, 6 on the G. So that was 5, 7, 9, 6.",
        "told-differently",
        "query",
        "e3",
        "The first telling has 8 on the G string",
    ),
    (
        "5, 7 on the D. 8, 6 on the G. 5, 8, 7, 6.",
        "reference-unsure",
        "query",
        "e1 e2 e3 e4 e5 e6 e7 e8",
        "may be new notes",
    ),
]


def raised(lesson: Lesson, kind: str) -> Flag:
    (found,) = [flag for flag in lesson.flags if flag.kind == kind]
    return found


@pytest.mark.parametrize(("heard", "kind", "level", "events", "says"), CASES)
def test_flag(heard: str, kind: str, level: str, events: str, says: str) -> None:
    flag = raised(hear(heard).lesson, kind)
    assert (flag.level, " ".join(flag.events)) == (level, events)
    assert says in flag.message


CLEAN = [
    "7 on the G",
    "7 on the G, then 9",
    "bend the 7 on the G a full step",
    "fifth fret on the D, that's a G",
    "7 on the G twice",
    "5, 7 on the D. 8, 6 on the G. So that was 5, 7, 8, 6.",
]


@pytest.mark.parametrize("heard", CLEAN)
def test_nothing_to_ask(heard: str) -> None:
    given = Given(ask=Ask.LESS)  # a short talk says little of its teacher
    assert hear(heard, given).lesson.flags == ()


def answered(lesson: Lesson, option: Option) -> list[str]:
    """The notes once that answer is given, as examples write them."""
    notes = []
    for event in lesson.events:
        changes = [change for change in option.change if change.event == event.id]
        if not any(change.drop for change in changes):
            for change in changes:
                event = edited(event, msgspec.structs.asdict(change))
            times = max((change.times or 1 for change in changes), default=1)
            notes += [str(notation.written(event))] * times
    return notes


def edited(event: Event, change: dict[str, object]) -> Event:
    fields = {name: change[name] for name in ("notes", "how", "bend", "to") if change[name] is not None}
    return msgspec.structs.replace(event, **fields)


def test_all_choices_are_named() -> None:
    flag = raised(hear("play fret 7, then 9").lesson, "string-unsaid")
    assert "; the B string or the G string would fit too." in flag.message


def test_drop_d_has_a_low_d_and_a_d() -> None:
    lesson = hear("7 on the D", Given(tuning="drop D")).lesson
    labels = {option.label for flag in lesson.flags for option in flag.options}
    assert "high D" not in " ".join(labels)
    flag = raised(hear("bend the 7 on string 4", Given(tuning="drop D")).lesson, "amount-unsure")
    assert "7 on the D string" in flag.message


def test_a_misheard_word_is_remarked_on_once() -> None:
    flag = raised(hear("5 and ate on the B").lesson, "misheard")
    assert len(flag.events) == 2


def test_strings_of_one_letter_are_told_apart() -> None:
    lesson = hear("8 on the B", Given(instrument="7-string guitar")).lesson
    options = raised(lesson, "string-unsaid").options
    assert [option.label for option in options][:2] == ["on the high B string", "on the low B string"]


ANSWERS = [
    ("play fret 7, then 9", "string-unsaid", "on the B string", ["2/7 pick", "2/9 pick"]),
    ("bend the 7 on the G", "amount-unsure", "a half step", ["3/7 bend=1"]),
    ("7 on the G twice, or three times", "count-unsure", "3 times", ["3/7 pick"] * 3),
    ("7 on the G three times, maybe two", "count-unsure", "2 times", ["3/7 pick"] * 2),
    ("7 on the G a million times", "count-unsure", "no note", []),
    ("fifth fret on the D, that's a B flat", "fret-unsure", "fret 8, the Bb", ["4/8 pick"]),
    ("fifth fret on the D, that's an A", "fret-unsure", "5 on the D string, as said", ["4/5 pick"]),
    (
        "5, 7 on the D. 8, 6 on the G. So that was 5, 7, 9, 6.",
        "told-differently",
        "9, as retold",
        ["4/5 pick", "4/7 pick", "3/9 pick", "3/6 pick"],
    ),
    (
        "5, 7 on the D. 8, 6 on the G. 5, 8, 7, 6.",
        "reference-unsure",
        "on the D string",
        [f"{note} pick" for note in ("4/5", "4/7", "3/8", "3/6", "4/5", "4/8", "4/7", "4/6")],
    ),
]


@pytest.mark.parametrize(("heard", "kind", "label", "notes"), ANSWERS)
def test_an_answer_does_what_it_says(heard: str, kind: str, label: str, notes: list[str]) -> None:
    lesson = hear(heard).lesson
    (option,) = [one for one in raised(lesson, kind).options if one.label == label]
    assert answered(lesson, option) == notes


@pytest.mark.parametrize(("heard", "kind", "label", "notes"), ANSWERS)
def test_the_draft_stands_on_the_first_answer(heard: str, kind: str, label: str, notes: list[str]) -> None:
    lesson = hear(heard).lesson
    assert raised(lesson, kind).options[0].change == ()
