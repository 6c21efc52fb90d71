"""Whatever is given, a user reads one sentence and no traceback."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesgen.cli.options import TUNINGS
from notesgen.music.tuning import parse_tuning
from tests.cli.run import SURE, notesgen

FILES = {
    "empty": b"",
    "blank": b" \n\n",
    "binary": bytes(range(256)) * 8,
    "zeros": b"\0" * 4096,
    "no-captions": b"just some prose\nwithout a time\n",
    "header-only": b"WEBVTT\n\n",
    "cut-off": b"WEBVTT\n\n00:00:01.000 --> 00:0",
    "latin-1": b"[0:01] caf\xe9, then 7 on the G\n",
    "utf-16-cut": b"\xff\xfe[\x000",
    "music-only": b"WEBVTT\n\n00:00:01.000 --> 00:00:04.000\n[Music]\n",
}


@pytest.mark.parametrize("command", ["draft", "check"])
@pytest.mark.parametrize("name", FILES)
def test_a_file_that_is_no_captions(command: str, name: str, tmp_path: Path) -> None:
    file = tmp_path / f"{name}.vtt"
    file.write_bytes(FILES[name])
    refused(command, str(file))
    assert list(tmp_path.iterdir()) == [file], "nothing may be written"


@pytest.mark.parametrize("path", ["missing.vtt", ".", "", "a\0b.vtt", "x" * 5000, "no/such/folder/a.vtt"])
def test_a_path_that_leads_nowhere(path: str) -> None:
    refused("check", path)


@pytest.mark.parametrize("path", ["missing.vtt", ".", "..", "", "/", "tests/.."])
def test_a_draft_of_a_path_that_leads_nowhere(path: str) -> None:
    told = refused("draft", path)
    assert "give a caption file" in told or "check the path" in told


def test_folders_that_cannot_be_made_are_told_plainly(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    for folder, reason in (("file", "is a file"), ("file/a", "part of this path"), ("x" * 400, "cannot be")):
        told = refused("draft", "-", "--out", str(tmp_path / folder), given=SURE)
        assert reason in told
        assert "Errno" not in told


@pytest.mark.parametrize(
    ("option", "told"),
    [
        (("--capo", "13"), '--capo: give a whole number from 0 to 12, not "13".'),
        (("--capo", "-1"), '--capo: give a whole number from 0 to 12, not "-1".'),
        (("--capo", "two"), '--capo: give a whole number from 0 to 12, not "two".'),
        (("--width", "3"), '--width: give a whole number from 40 to 1000, not "3".'),
    ],
)
def test_numbers_out_of_bounds_are_told_plainly(option: tuple[str, str], told: str) -> None:
    assert told in refused("draft", "-", "--out", "x", *option, given=SURE)


@pytest.mark.parametrize(
    ("option", "told"),
    [
        (("--key", "H minor"), "mixolydian"),
        (("--key", ""), "mixolydian"),
        (("--tuning", "drop Z"), "DADGAD"),
        (("--tuning", "E A D"), "names 3 strings"),
        (("--instrument", "kazoo"), "ukulele"),
    ],
)
def test_an_option_that_is_not_understood_lists_what_is(option: tuple[str, str], told: str) -> None:
    for command in ("check", "draft"):
        result = refused(command, "-", *(["--out", "x"] if command == "draft" else []), *option, given=SURE)
        assert told in result


@pytest.mark.parametrize("option", [("--capo", "99"), ("--capo", "two"), ("--width", "3"), ("--frets",)])
def test_usage_errors_end_with_2(option: tuple[str, ...]) -> None:
    assert notesgen("draft", "-", "--out", "x", *option, given=SURE).exit_code == 2


def test_a_format_that_is_not_there_is_told_plainly() -> None:
    assert '--format: give text or json, not "xml".' in refused("check", "-", "--format", "xml", given=SURE)


def test_control_characters_of_a_name_do_not_reach_the_terminal() -> None:
    assert "\x1b" not in refused("check", "a\x1b[31m.vtt")


@pytest.mark.parametrize("name", TUNINGS)
def test_the_tunings_that_are_listed_are_understood(name: str) -> None:
    assert len(parse_tuning(name)) == 6


def refused(*words: str, given: str = "") -> str:
    """What standard error says: one line, exit status 2, no traceback."""
    result = notesgen(*words, given=given)
    assert result.exit_code == 2, result.output
    assert isinstance(result.exception, SystemExit)
    assert result.stderr.startswith("notesgen: ")
    assert result.stderr.count("\n") == 1
    return result.stderr
