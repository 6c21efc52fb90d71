"""`notesgen draft` writes a pack and says what is open."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesgen.errors import InputError
from notesgen.lesson.store import decode
from notesgen.pack import tab
from notesgen.pack.layout.style import Style
from notesgen.packing import pack_folder
from tests.cli.run import DOUBTFUL, TALK, notesgen
from tests.pack.files import PACK


@pytest.fixture
def captions(tmp_path: Path) -> Path:
    file = tmp_path / "harbour.vtt"
    file.write_text(TALK)
    return file


def files(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_the_pack_stands_beside_the_captions(captions: Path) -> None:
    result = notesgen("draft", str(captions))
    assert result.exit_code == 0, result.output
    assert files(captions.parent / "harbour") == PACK
    assert "Written to" in result.stdout


def test_out_is_made_with_the_folders_above_it(captions: Path, tmp_path: Path) -> None:
    assert notesgen("draft", str(captions), "--out", str(tmp_path / "a" / "b")).exit_code == 0
    assert files(tmp_path / "a" / "b") == PACK


def test_a_second_draft_gives_the_same_bytes(captions: Path) -> None:
    def drafted() -> list[bytes]:
        notesgen("draft", str(captions))
        return [(captions.parent / "harbour" / name).read_bytes() for name in PACK]

    assert drafted() == drafted()


def test_what_is_given_ends_in_the_lesson(captions: Path) -> None:
    options = ["--title", "Slow one", "--key", "A minor", "--tuning", "drop D", "--capo", "2"]
    notesgen("draft", str(captions), *options)
    facts = decode((captions.parent / "harbour" / "lesson.json").read_bytes(), "lesson.json").facts
    assert (facts.title, str(facts.key), facts.tuning[-1], facts.capo) == ("Slow one", "A minor", "D2", 2)
    assert {facts.origin[name] for name in ("key", "tuning", "capo")} == {"given"}


def test_the_width_is_the_tabs(captions: Path) -> None:
    notesgen("draft", str(captions), "--width", "44")
    written = (captions.parent / "harbour" / "tab.txt").read_text()
    lesson = decode((captions.parent / "harbour" / "lesson.json").read_bytes(), "lesson.json")
    assert written == tab.render(lesson, Style(44))


def test_standard_input_needs_a_folder(tmp_path: Path) -> None:
    refused = notesgen("draft", "-", given=TALK)
    assert (refused.exit_code, refused.stderr.count("\n")) == (2, 1)
    assert "--out DIR" in refused.stderr
    assert notesgen("draft", "-", "--out", str(tmp_path / "pack"), given=TALK).exit_code == 0
    assert files(tmp_path / "pack") == PACK


def test_the_summary_tells_facts_counts_and_queries() -> None:
    shown = notesgen("check", "-", given=TALK).stdout
    assert "Key         D minor  (said)" in shown
    assert "Capo        none  (said)" in shown
    assert "1 remark (--all shows them)" in shown


def test_a_query_shows_the_words_with_carets_and_the_choices() -> None:
    shown = notesgen("check", "-", given=DOUBTFUL).stdout.splitlines()
    carets = next(i for i, line in enumerate(shown) if line.strip(" ") and not line.strip(" ^"))
    marked = shown[carets - 1][shown[carets].index("^") : len(shown[carets])]
    assert "5" in marked
    assert any("as drafted" in line for line in shown[carets:])


def test_a_draft_without_notes_says_what_to_try(tmp_path: Path) -> None:
    shown = notesgen("draft", "-", "--out", str(tmp_path), given="[0:01] hello, my friends").stdout
    for told in (shown, (tmp_path / "tab.txt").read_text(), (tmp_path / "notes.md").read_text()):
        for words in ("No note was found", "in English", "--tuning", "notesgen explain"):
            assert words in " ".join(told.split())
        for advice in ("Warm up", "No question is open", "may share it"):
            assert advice not in told


def test_the_bass_has_its_own_standard_tuning() -> None:
    talk = "[0:01] We are in standard tuning. 5 on the A."
    shown = notesgen("check", "-", "--instrument", "bass", given=talk).stdout
    assert "Tuning      E A D G, low to high (standard)  (said)" in shown


def test_tunings_of_other_instruments_are_not_said_of_the_bass() -> None:
    talk = "[0:01] The tuning is D A D G A D. 5 on the A."
    shown = notesgen("check", "-", "--instrument", "bass", given=talk).stdout
    assert "Tuning      E A D G, low to high (standard)  (assumed)" in shown


def test_remarks_are_shown_on_demand() -> None:
    assert "corrected" not in notesgen("check", "-", given=TALK).stdout
    assert "corrected" in notesgen("check", "-", "--all", given=TALK).stdout


@pytest.mark.parametrize(
    ("captions", "folder"),
    [("harbour.vtt", "harbour"), ("a/b.en.srt", "a/b.en"), ("talk", "talk-pack"), ("/x/y.txt", "/x/y")],
)
def test_the_folder_bears_the_captions_name(captions: str, folder: str) -> None:
    assert pack_folder(captions) == Path(folder)


def test_standard_input_has_no_folder() -> None:
    with pytest.raises(InputError, match="standard input"):
        pack_folder("-")
