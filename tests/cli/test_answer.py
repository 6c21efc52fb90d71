"""`notesgen answer`: decisions typed, kept, taken back, and found again by the next draft."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesgen.decisions.store import FILE, read_decisions
from notesgen.lesson.model import Lesson
from notesgen.lesson.store import decode
from tests.cli.run import notesgen

TALK = """[0:00] Standard tuning, no capo, D minor. On the G string, 5, and hammer on to 7.
[0:10] So then fret 6, and 5.
[0:20] Then 8 on the B, hammer on from 8 to 7 on the B string.
[0:30] Then 12 on the D string, 10 on the D string, 12 on the D string."""


@pytest.fixture
def pack(tmp_path: Path) -> Path:
    (tmp_path / "talk.txt").write_text(TALK)
    assert notesgen("draft", str(tmp_path / "talk.txt"), "--out", str(tmp_path / "pack")).exit_code == 0
    return tmp_path / "pack"


def lesson(pack: Path) -> Lesson:
    return decode((pack / "lesson.json").read_bytes(), "lesson.json")


def places(pack: Path) -> list[str]:
    return [f"{note.string}/{note.fret}" for event in lesson(pack).events for note in event.notes]


def number(pack: Path, kind: str) -> int:
    """The number of the first query of that kind."""
    return [f.kind for f in lesson(pack).flags if f.level == "query"].index(kind) + 1  # type: ignore[arg-type]


def done(*words: str) -> str:
    result = notesgen("answer", *words)
    assert result.exit_code == 0, result.output
    return result.stdout


def refused(*words: str) -> str:
    result = notesgen("answer", *words)
    assert result.exit_code == 2, result.output
    assert result.stderr.startswith("notesgen: ") and result.stderr.count("\n") == 1
    return result.stderr


def test_an_answer_is_kept_and_the_pack_written_anew(pack: Path) -> None:
    asked = number(pack, "wrong-way")
    shown = done(str(pack), f"{asked}=b")
    assert "a pull-off" in shown and f"[{asked}]" not in shown
    assert [e.how for e in lesson(pack).events if e.origin == "decided"] == ["pull-off"]
    assert "8p7" in (pack / "tab.txt").read_text()
    assert [d.answer for d in read_decisions(pack / FILE)] == ["a pull-off"]


@pytest.mark.parametrize("choice", ["b", "B", "2", "b)"])
def test_a_choice_by_letter_or_number_and_a_question_by_its_id(pack: Path, choice: str) -> None:
    flag = next(flag for flag in lesson(pack).flags if flag.kind == "wrong-way")
    done(str(pack), f"{flag.id}={choice}")
    assert next(f for f in lesson(pack).flags if f.id == flag.id).decided == flag.options[1].label


def test_a_question_is_answered_by_a_place_of_ones_own(pack: Path) -> None:
    asked = number(pack, "wrong-way")
    done(str(pack), f"{asked}=2/10")
    assert "2/10" in places(pack)
    assert [f.decided for f in lesson(pack).flags if f.level == "query"][asked - 1] == "2/10"


def test_a_second_draft_keeps_the_answers_and_says_so(pack: Path) -> None:
    done(str(pack), f"{number(pack, 'wrong-way')}=b", "--set", "2/8->2/10 at 0:20")
    before = [(pack / name).read_bytes() for name in ("lesson.json", "tab.txt", FILE)]
    again = notesgen("draft", str(pack.parent / "talk.txt"), "--out", str(pack))
    assert "2 answers of yours hold." in again.stdout
    assert [(pack / name).read_bytes() for name in ("lesson.json", "tab.txt", FILE)] == before


def test_answers_that_fit_nothing_any_more_are_listed_and_kept(pack: Path) -> None:
    done(str(pack), f"{number(pack, 'wrong-way')}=b")
    held = (pack / FILE).read_bytes()
    other = notesgen("draft", "-", "--out", str(pack), given="[0:00] 12 on the high E")
    assert "1 answer no longer fits anything" in other.stdout
    assert "(wrong-way): a pull-off" in other.stdout
    assert (pack / FILE).read_bytes() == held


def test_an_answer_is_taken_back(pack: Path) -> None:
    before = (pack / "lesson.json").read_bytes()
    asked = number(pack, "wrong-way")
    done(str(pack), f"{asked}=b")
    done(str(pack), "--undo", str(asked))
    assert (pack / "lesson.json").read_bytes() == before
    done(str(pack), "--set", "2/8->2/9 at 0:20")
    done(str(pack), "--undo", "last")
    assert (pack / "lesson.json").read_bytes() == before


def test_the_last_is_the_answer_that_was_given_last(pack: Path) -> None:
    first, *_, other = [f.id for f in lesson(pack).flags if f.level == "query"]
    for words in (f"{first}=b", f"{other}=b", f"{first}=c"):
        done(str(pack), words)
    done(str(pack), "--undo", "last")
    decided = {flag.id: flag.decided for flag in lesson(pack).flags}
    assert decided[first] is None and decided[other] is not None


def test_a_question_whose_notes_were_taken_out_is_one_sentence(pack: Path) -> None:
    asked = next(f for f in lesson(pack).flags if f.level == "query" and not f.options[0].change)
    done(str(pack), *(word for name in asked.events for word in ("--set", f"{name}->none")))
    for choice in ("a", "2/8"):
        assert "not in the lesson any more" in refused(str(pack), f"{asked.id}={choice}")


def test_a_note_is_set_by_hand(pack: Path) -> None:
    done(str(pack), "--set", "2/8→1/3 at 0:20")
    assert "1/3" in places(pack)
    event = next(e for e in lesson(pack).events if e.notes[0].fret == 7 and e.start < 10)
    done(str(pack), "--set", f"{event.id}->slide")
    assert next(e for e in lesson(pack).events if e.id == event.id).how == "slide"
    done(str(pack), "--set", f"{event.id}->none")
    assert event.id not in [e.id for e in lesson(pack).events]


def test_no_captions_are_needed(pack: Path) -> None:
    (pack.parent / "talk.txt").unlink()
    assert "a pull-off" in done(str(pack), f"{number(pack, 'wrong-way')}=b")


def test_a_pack_of_lesson_json_alone_can_be_answered_once_drafted(pack: Path) -> None:
    (pack / "draft.json").unlink()
    done(str(pack), f"{number(pack, 'wrong-way')}=b")
    (pack / "draft.json").unlink()
    assert "Draft the captions again" in refused(str(pack), "1=a")


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["1"], "is no answer"),
        (["1="], "is no answer"),
        (["99=a"], "There is no question"),
        (["f99=a"], "There is no question"),
        (["1=z"], "give a letter from a to"),
        (["1=0"], "give a letter from a to"),
        (["--set", "2/9"], "sets nothing"),
        (["--set", "9/9->1/1"], "there is no 9/9"),
        (["--set", "2/8->2/z"], "names no notes"),
        (["--set", "2/8->loudly"], "no way to begin a note"),
        (["--set", "2/8->2/9 at noon"], "no way to begin"),
        (["--set", "4/12->4/10"], "stands 2 times"),
        (["--undo", "1"], "no answer to take back"),
        (["--undo", "last"], "no answer to take back"),
    ],
)
def test_what_cannot_be_done_is_one_sentence_and_writes_nothing(
    pack: Path, typed: list[str], told: str
) -> None:
    before = (pack / "lesson.json").read_bytes()
    assert told in refused(str(pack), f"{number(pack, 'wrong-way')}=b", *typed)
    assert (pack / "lesson.json").read_bytes() == before
    assert not (pack / FILE).exists()


def test_a_folder_that_is_no_pack(tmp_path: Path) -> None:
    assert "This is no pack" in refused(str(tmp_path), "1=a")
    assert "This is no pack" in refused(str(tmp_path / "nowhere"), "1=a")


def test_a_slip_in_the_file_stops_a_draft_before_anything_is_written(pack: Path) -> None:
    (pack / FILE).write_text('[[decision]]\nanswer = "a"\nat = 1\nword = "b"\n')
    before = (pack / "lesson.json").read_bytes()
    again = notesgen("draft", "-", "--out", str(pack), given="[0:00] 12 on the high E")
    assert (again.exit_code, again.stderr.count("\n")) == (2, 1)
    assert f"{FILE}:4" in again.stderr
    assert (pack / "lesson.json").read_bytes() == before


def test_a_check_knows_the_answers_of_the_pack(tmp_path: Path) -> None:
    (tmp_path / "talk.txt").write_text(TALK)
    notesgen("draft", str(tmp_path / "talk.txt"))
    queries = [flag for flag in lesson(tmp_path / "talk").flags if flag.level == "query"]
    assert notesgen("check", str(tmp_path / "talk.txt")).exit_code == 1
    done(str(tmp_path / "talk"), *(f"{n}=a" for n in range(1, len(queries) + 1)))
    assert notesgen("check", str(tmp_path / "talk.txt")).exit_code == 0
