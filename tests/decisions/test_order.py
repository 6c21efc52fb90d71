"""First what most hangs on."""

from __future__ import annotations

from notesgen.decisions.order import by_weight
from notesgen.lesson.changes import left_out
from notesgen.lesson.model import Change, Event, Facts, Flag, FlagKind, Lesson, Note, Option, Source

EVENTS = tuple(Event(f"e{n}", float(n), n + 1.0, "p1", (Note(3, n),)) for n in range(1, 9))


def flag(
    name: str, kind: FlagKind, events: tuple[Event, ...], option: Option, decided: str | None = None
) -> Flag:
    ids = tuple(event.id for event in events)
    options = (Option("as drafted"), option)
    return Flag(name, kind, "query", events[0].start, 9.0, ids, "", "", options, decided)


def order(*flags: Flag) -> list[str]:
    lesson = Lesson(source=Source("a.vtt"), facts=Facts("A", "guitar", ("E4",)), events=EVENTS, flags=flags)
    return [flag.id for flag in by_weight(lesson)]


def moved(events: tuple[Event, ...]) -> Option:
    return Option("elsewhere", tuple(Change(event.id, notes=(Note(2, 1),)) for event in events))


def test_a_run_comes_before_a_note() -> None:
    one, run = EVENTS[:1], EVENTS[1:6]
    assert order(
        flag("one", "string-unsaid", one, moved(one)), flag("run", "string-unsaid", run, moved(run))
    ) == ["run", "one"]


def test_of_the_same_size_the_more_doubtful_comes_first() -> None:
    first, second = EVENTS[:1], EVENTS[1:2]
    asked = (
        flag("count", "count-unsure", first, moved(first)),
        flag("string", "string-unsaid", second, moved(second)),
    )
    assert order(*asked) == ["string", "count"]


def test_what_an_answer_would_write_counts() -> None:
    first, second = EVENTS[:1], EVENTS[1:2]
    often = Option("eight times", (Change("e2", times=8),))
    asked = flag("once", "fret-unsure", first, moved(first)), flag("often", "fret-unsure", second, often)
    assert order(*asked) == ["often", "once"]


def test_of_the_same_weight_the_earlier_and_no_answered_ones() -> None:
    gone = Option("no note", left_out(EVENTS[:1]))
    flags = [flag(f"f{n}", "fret-unsure", EVENTS[n : n + 1], gone) for n in (3, 1, 2)]
    assert order(*flags, flag("done", "fret-unsure", EVENTS, gone, decided="no note")) == ["f1", "f2", "f3"]
