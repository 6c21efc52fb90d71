"""`notesgen pack` makes a pack again from its lesson.json."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
from msgspec.structs import replace
from typer.testing import Result

from notesgen.cli.lesson_file import find_captions
from notesgen.lesson.model import Lesson
from notesgen.lesson.store import decode, encode
from notesgen.pack import tab
from notesgen.pack.layout.footnotes import UNSETTLED
from notesgen.pack.layout.style import Style
from notesgen.pack.outputs import chosen
from tests.cli.run import TALK, notesgen
from tests.pack.rich import LESSON, SETTLED


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a lesson that has open queries."""
    return written(tmp_path / "pack", LESSON)


def written(folder: Path, lesson: Lesson) -> Path:
    folder.mkdir(exist_ok=True)
    (folder / "lesson.json").write_bytes(encode(lesson))
    return folder


def files(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


@pytest.mark.parametrize("name", ["", "lesson.json"])
def test_the_pack_is_made_beside_the_lesson_from_the_folder_or_the_file(folder: Path, name: str) -> None:
    before = (folder / "lesson.json").read_bytes()
    result = notesgen("pack", str(folder / name))
    assert result.exit_code == 0, result.output
    assert {"tab.txt", "notes.md", "lesson.json"} <= files(folder)
    assert (folder / "lesson.json").read_bytes() == before
    assert "Written to" in result.stdout and "tab.txt" in result.stdout


def test_what_a_draft_wrote_is_made_again_to_the_byte(tmp_path: Path) -> None:
    (tmp_path / "harbour.vtt").write_text(TALK)
    notesgen("draft", str(tmp_path / "harbour.vtt"))
    drafted = {path.name: path.read_bytes() for path in (tmp_path / "harbour").iterdir()}
    assert notesgen("pack", str(tmp_path / "harbour"), "--out", str(tmp_path / "again")).exit_code == 0
    again = {path.name: path.read_bytes() for path in (tmp_path / "again").iterdir()}
    kept = ("lesson.json", "draft.json")
    assert again == {name: data for name, data in drafted.items() if name not in kept}


@pytest.mark.parametrize("only", ["txt,md", "tab.txt markdown", ".txt, .MD", "tab,notes.md,tab"])
def test_only_goes_by_name_file_or_ending(only: str) -> None:
    assert {"markdown", "tab"} <= {output.name for output in chosen(only)}


def test_only_what_is_wanted_is_made(folder: Path) -> None:
    notesgen("pack", str(folder), "--only", "tab,markdown")
    assert files(folder) == {"lesson.json", "tab.txt", "notes.md"}


def test_a_draft_in_some_formats_still_keeps_its_lesson(tmp_path: Path) -> None:
    assert notesgen("draft", "-", "--out", str(tmp_path), "--only", "tab", given=TALK).exit_code == 0
    assert files(tmp_path) == {"draft.json", "lesson.json", "tab.txt"}


def test_a_draft_spares_its_captions(tmp_path: Path) -> None:
    captions = tmp_path / "tab.txt"
    captions.write_text("[0:01] 5 on the G string")
    refused = notesgen("draft", str(captions), "--out", str(tmp_path))
    assert refused.exit_code == 2
    assert "would replace these captions" in refused.stderr
    assert files(tmp_path) == {"tab.txt"}


def test_the_width_and_the_folder_are_taken(folder: Path, tmp_path: Path) -> None:
    notesgen("pack", str(folder), "--only", "tab", "--width", "44", "--out", str(tmp_path / "a" / "b"))
    assert (tmp_path / "a" / "b" / "tab.txt").read_text() == tab.render(LESSON, Style(44))
    assert files(folder) == {"lesson.json"}


def test_a_students_edition_stands_apart(tmp_path: Path) -> None:
    pack = written(tmp_path / "pack", SETTLED)
    assert notesgen("pack", str(pack), "--edition", "student").exit_code == 0
    assert files(pack) == {"lesson.json", "student"}
    assert "lesson.json" not in files(pack / "student")
    assert UNSETTLED not in (pack / "student" / "tab.txt").read_text()


def test_open_queries_refuse_a_students_edition_and_are_listed(folder: Path) -> None:
    refused = notesgen("pack", str(folder), "--edition", "student")
    assert (refused.exit_code, refused.stdout) == (1, "")
    told = " ".join(refused.stderr.split())
    assert "[2] 1:06 No string was named for the 10." in told
    assert "6 queries are open" in told and "--force" in told
    assert files(folder) == {"lesson.json"}


def test_force_makes_a_draft_of_it(folder: Path) -> None:
    assert notesgen("pack", str(folder), "--edition", "student", "--force").exit_code == 0
    for name in ("tab.txt", "notes.md"):
        assert UNSETTLED in (folder / "student" / name).read_text()


def test_captions_are_found_beside_the_lesson_or_beside_its_folder(folder: Path) -> None:
    lesson = folder / "lesson.json"
    assert find_captions(LESSON, lesson) is None
    (folder.parent / "harbour.vtt").write_text(TALK)
    found = find_captions(LESSON, lesson)
    assert found is not None and found.source == "harbour.vtt"
    (folder / "harbour.vtt").write_text("[0:01] one word")
    beside = find_captions(LESSON, lesson)
    assert beside is not None and beside.format == "text"


@pytest.mark.parametrize("name", ["../harbour.vtt", "/etc/hostname", "", "a/harbour.vtt", "tab.txt"])
def test_no_other_file_is_taken_for_captions(folder: Path, name: str) -> None:
    for place in (folder.parent / "harbour.vtt", folder / "tab.txt"):
        place.write_text(TALK)
    assert (
        find_captions(replace(LESSON, source=replace(LESSON.source, captions=name)), folder / "lesson.json")
        is None
    )


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--only", "docx"], '--only: "docx" is no format of a pack; choose from '),
        (["--only", ""], "--only: no format is named; choose from "),
        (["--edition", "parent"], '--edition: give teacher or student, not "parent".'),
        (["--width", "3"], "--width: give a whole number from 40"),
        (["--out", "pack/lesson.json"], "This is a file, not a folder"),
    ],
)
def test_options_that_cannot_be_used(
    folder: Path, monkeypatch: pytest.MonkeyPatch, words: list[str], told: str
) -> None:
    monkeypatch.chdir(folder.parent)
    refuses(notesgen("pack", "pack", *words), told)
    assert files(folder) == {"lesson.json"}


def test_the_choices_name_every_format() -> None:
    told = notesgen("pack", "x", "--only", "docx").stderr
    assert "tab (tab.txt)" in told and "markdown (notes.md)" in told


def changed(path: str, value: object) -> bytes:
    """The rich lesson as JSON with one field changed: "facts.capo"."""
    lesson = msgspec.json.decode(encode(LESSON))
    *way, name = [int(part) if part.isdigit() else part for part in path.split(".")]
    held = lesson
    for part in way:
        held = held[part]
    held[name] = value
    return msgspec.json.encode(lesson)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "This is no lesson; give the lesson.json of a pack, or captions to draft."),
        (TALK.encode(), "This is no lesson;"),
        (b"\x89PNG", "This is no lesson;"),
        (b"{", "The file ends too early; draft the lesson again."),
        (b'{"format": "song/2"}', "another format"),
        (encode(LESSON)[:3000], "The file ends too early; draft the lesson again."),
        (encode(LESSON).replace(b"Riff", b"\xff"), "not UTF-8"),
        (changed("facts.tuning", []), "In facts, tuning: it should name 1 to 30 strings."),
        (changed("facts.tuning", ["E4", "loose"]), 'In facts, tuning: "loose" is no pitch, such as "Bb3".'),
        (
            changed("facts.key", {"tonic": "H", "mode": "minor"}),
            'In facts, key: "H" is no note, such as "Bb".',
        ),
        (changed("facts.capo", -1), "In facts, capo: -1 is not from 0 to 24."),
        (changed("facts.tempo", 0), "In facts, tempo: 0 is not from 1 to 1000."),
        (changed("facts.positions.0.frets", {"low E": [5]}), '"low E" is no string'),
        (changed("facts.positions.0.frets", {"5": [-5]}), "In facts, positions, item 1, frets: -5 is not"),
        (changed("facts.changes.0.value", {"tonic": "", "mode": ""}), "In facts, changes, item 1, value"),
        (
            changed("events.0.notes", [{"string": 0, "fret": 3}]),
            "In events, e1, string: 0 is not from 1 to 30.",
        ),
        (
            changed("events.0.notes", [{"string": 1, "fret": "y"}]),
            'In events, item 1, notes, item 1, fret: "y"',
        ),
        (
            changed("events.0.notes", [{"string": 1, "fret": 3}] * 2),
            "In events, e1: one string has two notes",
        ),
        (changed("events.0.bend", -2), "In events, e1, bend: -2 is not from 0 to 24."),
        (changed("events.0.start", -2), "In events, e1: times go from 0"),
        (changed("events.1.id", "e1"), 'In events: "e1" stands there twice.'),
        (changed("phrases.0.events", ["e1", "e1"]), 'In phrases: "e1" stands there twice.'),
        (changed("phrases.0.demos", [[5, 3]]), "In phrases, p1, demos: times go"),
        (changed("repeats.0.times", 10**9), "In repeats, item 1, times: 1e+09 is not from 1 to 1000."),
    ],
)
def test_a_damaged_or_foreign_lesson_is_one_sentence(tmp_path: Path, data: bytes, told: str) -> None:
    (tmp_path / "lesson.json").write_bytes(data)
    refuses(notesgen("pack", str(tmp_path)), told)
    assert files(tmp_path) == {"lesson.json"}


@pytest.mark.parametrize(
    ("path", "told"),
    [
        ("", "The path of the lesson is empty"),
        ("nowhere", "There is no such file"),
        (".", "This folder holds no lesson.json"),
        ("a\0b", "cannot be read"),
        ("x" * 5000, "cannot be read"),
    ],
)
def test_a_path_that_leads_nowhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, path: str, told: str
) -> None:
    monkeypatch.chdir(tmp_path)
    refuses(notesgen("pack", path), told)


def refuses(result: Result, told: str) -> None:
    """One sentence on standard error, status 2."""
    assert (result.exit_code, result.stdout) == (2, ""), result.output
    assert told in result.stderr
    assert result.stderr.count("\n") == 1


def test_a_fret_that_no_neck_has_is_kept_as_it_was_said(tmp_path: Path) -> None:
    (tmp_path / "lesson.json").write_bytes(changed("events.0.notes", [{"string": 5, "fret": 105}]))
    assert notesgen("pack", str(tmp_path), "--only", "tab").exit_code == 0


def test_what_a_draft_writes_makes_sense(tmp_path: Path) -> None:
    notesgen("demo", "--out", str(tmp_path))
    decode((tmp_path / "lesson.json").read_bytes(), "lesson.json")
    assert notesgen("pack", str(tmp_path)).exit_code == 0
