"""Where events and flags end up on the sheet."""

from __future__ import annotations

from notesgen.lesson.model import Event, Facts, Flag, Lesson, Level, Note, Phrase, Source
from notesgen.pack.layout.footnotes import choices, draft_line
from notesgen.pack.layout.sheet import lay_out
from tests.pack.rich import FLAGS


def event(number: int, flags: tuple[str, ...] = ()) -> Event:
    return Event(f"e{number}", 10.0 * number, 10.0 * number + 1, "", (Note(3, 5),), flags=flags)


def flag(name: str, start: float, *events: str, level: Level = "query", decided: str | None = None) -> Flag:
    return Flag(name, "fret-unsure", level, start, start + 1, events, "", name, decided=decided)


def lesson(*flags: Flag, events: tuple[Event, ...] = (event(1), event(2), event(3))) -> Lesson:
    return Lesson(
        source=Source("a.vtt"),
        facts=Facts("A lesson", "guitar", ("E4",)),
        phrases=(Phrase("p1", "One", 10.0, 19.0, ("e1",)), Phrase("p2", "Two", 20.0, 29.0, ("e2", "gone"))),
        events=events,
        flags=flags,
    )


def test_events_that_no_phrase_holds_come_last_and_lost_ids_are_passed_over() -> None:
    passages = lay_out(lesson()).passages
    assert [[e.id for e in passage.events] for passage in passages] == [["e1"], ["e2"], ["e3"]]
    assert [passage.title for passage in passages] == ["Phrase one", "Phrase two", ""]


def test_flags_go_to_the_passage_of_their_events_else_by_their_time() -> None:
    sheet = lay_out(lesson(flag("early", 1.0), flag("named", 1.0, "e2"), flag("timed", 15.0)))
    told = [
        [q.flag.id for q in questions]
        for questions in (sheet.questions, *(p.questions for p in sheet.passages))
    ]
    assert told == [["early"], ["timed"], ["named"], []]


def test_questions_stand_in_reading_order_and_bear_the_numbers_of_the_lesson() -> None:
    sheet = lay_out(lesson(flag("a", 11.0, "e1"), flag("b", 21.0, "e2"), flag("late", 12.0, "e1", "e2")))
    assert [(q.number, q.flag.id) for q in sheet.all_questions] == [(1, "a"), (3, "late"), (2, "b")]
    assert sheet.asked == {"e1": (1, 3), "e2": (2, 3)}


def test_an_answer_leaves_the_numbers_of_other_questions_alone() -> None:
    sheet = lay_out(lesson(flag("done", 11.0, "e1", decided="5"), flag("open", 21.0, "e2")))
    assert [(q.number, q.flag.id) for q in sheet.all_questions] == [(2, "open")]


def test_an_event_may_name_its_flag_as_well_as_the_flag_its_event() -> None:
    sheet = lay_out(lesson(flag("f", 11.0), events=(event(1, flags=("f",)),)))
    assert sheet.asked == {"e1": (1,)}


def test_answered_queries_no_longer_show_and_notes_are_remarks() -> None:
    sheet = lay_out(lesson(flag("done", 11.0, "e1", decided="5"), flag("said", 12.0, "e1", level="note")))
    assert sheet.all_questions == ()
    assert [remark.id for remark in sheet.passages[0].remarks] == ["said"]


def test_choices_are_lettered_and_the_first_is_the_draft() -> None:
    assert choices(FLAGS[3]) == ["a) a quarter tone (as drafted)", "b) a half step"]


def test_the_draft_line_counts() -> None:
    assert "1 question is still open, marked [1]." in draft_line("a.vtt", 1, 5)
    assert "3 questions are still open, marked [1] to [3]." in draft_line("a.vtt", 3, 5)
    assert "2 questions are still open, marked [2] to [9]." in draft_line("a.vtt", 2, 5, [9, 2])
    assert "No note was found in what is said in a.vtt" in draft_line("a.vtt", 0, 0)


def test_a_sheet_without_flags_asks_and_remarks_nothing() -> None:
    flagged = lesson(flag("a", 11.0, "e1"), flag("said", 12.0, "e1", level="note"))
    sheet = lay_out(flagged, flagged=False)
    assert not sheet.all_questions and not sheet.asked
    assert not any(passage.remarks for passage in sheet.passages)
