"""`notesgen review` with what it cannot use: one sentence, status 2, before anything is served."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesgen.review.port import listening
from tests.cli.run import notesgen
from tests.review.pages import lesson


def refused(*words: str) -> str:
    """What is printed, on one line."""
    result = notesgen("review", "--no-open", *words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.count("\n") == 1
    return result.stderr


def test_captions_that_are_not_there(tmp_path: Path) -> None:
    assert "no such file" in refused(str(tmp_path / "none.vtt"))


def test_standard_input_has_no_place_for_answers() -> None:
    assert "as a file" in refused("-")


def test_captions_without_talk(tmp_path: Path) -> None:
    assert "No caption" in refused(str(lesson(tmp_path, talk="nothing with a time")))


def test_a_recording_that_is_not_there(tmp_path: Path) -> None:
    assert "no such file" in refused(str(lesson(tmp_path)), "--media", str(tmp_path / "none.mp4"))


def test_a_recording_for_a_whole_folder(tmp_path: Path) -> None:
    assert "--media" in refused(str(tmp_path), "--media", str(lesson(tmp_path)))


def test_answers_that_cannot_be_read(tmp_path: Path) -> None:
    captions = lesson(tmp_path)
    (tmp_path / "walk").mkdir()
    (tmp_path / "walk" / "decisions.toml").write_text("[[decision\n")
    assert "decisions.toml:1" in refused(str(captions))


@pytest.mark.parametrize("port", ["-1", "70000", "http"])
def test_no_port(tmp_path: Path, port: str) -> None:
    assert "--port" in refused(str(tmp_path), "--port", port)


def test_a_busy_port(tmp_path: Path) -> None:
    place = listening(0)
    port = str(place.getsockname()[1])
    assert f"port {port} is in use" in refused(str(tmp_path), "--port", port)
    place.close()
