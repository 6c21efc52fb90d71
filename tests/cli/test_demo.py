"""The demo shows a slip put right, a string left unsaid, and a slip that nobody noticed."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesgen.lesson.model import Lesson
from notesgen.lesson.store import decode
from tests.cli.run import notesgen
from tests.pack.files import PACK


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("demo") / "lesson"
    result = notesgen("demo", "--out", str(made))
    assert result.exit_code == 0, result.output
    return made


@pytest.fixture(scope="module")
def lesson(folder: Path) -> Lesson:
    return decode((folder / "lesson.json").read_bytes(), "lesson.json")


def test_the_folder_holds_captions_and_pack(folder: Path) -> None:
    assert sorted(path.name for path in folder.iterdir()) == sorted(["harbour.vtt", *PACK])


def test_the_facts_are_heard(lesson: Lesson) -> None:
    assert (lesson.facts.title, str(lesson.facts.key)) == ("Harbour Lights", "D minor")
    assert 100 < lesson.source.duration < 200


@pytest.mark.parametrize(
    ("kind", "quoted"), [("corrected", "8"), ("string-unsaid", "6"), ("wrong-way", "8 to 7")]
)
def test_it_shows_each_kind_of_doubt(lesson: Lesson, kind: str, quoted: str) -> None:
    assert any(flag.kind == kind and quoted in flag.quote for flag in lesson.flags)


def test_a_file_in_the_way_is_told(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("mine")
    result = notesgen("demo", "--out", str(tmp_path / "taken"))
    assert result.exit_code == 2
    assert "file, not a folder" in result.stderr
    assert (tmp_path / "taken").read_text() == "mine"
