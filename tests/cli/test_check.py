"""`notesgen check` writes nothing, and its exit status tells whether queries stand open."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.run import DOUBTFUL, SURE, TALK, notesgen


@pytest.mark.parametrize(("talk", "status"), [(SURE, 0), (DOUBTFUL, 1)])
def test_the_status_tells_whether_queries_stand_open(talk: str, status: int) -> None:
    for form in ("text", "json"):
        assert notesgen("check", "-", "--format", form, given=talk).exit_code == status


def test_nothing_is_written(tmp_path: Path) -> None:
    captions = tmp_path / "harbour.vtt"
    captions.write_text(TALK)
    notesgen("check", str(captions))
    assert list(tmp_path.iterdir()) == [captions]


def test_json_holds_facts_counts_and_flags() -> None:
    found = json.loads(notesgen("check", "-", "--format", "json", given=TALK).stdout)
    assert list(found) == ["facts", "counts", "flags"]
    assert found["facts"]["key"] == {"tonic": "D", "mode": "minor"}
    assert found["counts"]["remarks"] == sum(flag["level"] == "note" for flag in found["flags"])


def test_warnings_go_to_standard_error() -> None:
    broken = f"{TALK}\n00:00:99.000 --> 00:01:00.000\nlost\n"
    result = notesgen("check", "-", "--format", "json", given=broken)
    assert json.loads(result.stdout)
    assert "standard input:" in result.stderr


@pytest.mark.parametrize("form", ["text", "json"])
def test_talk_without_a_note_is_told_and_is_no_success(form: str) -> None:
    result = notesgen("check", "-", "--format", form, given="[0:00] hello and welcome back")
    assert result.exit_code == 1
    assert result.stderr.splitlines() == ["notesgen: no note was found in what is said in standard input."]


@pytest.mark.parametrize("title", ["", " "])
def test_an_empty_title_is_no_title(title: str) -> None:
    result = notesgen("check", "-", "--title", title, given=SURE)
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert "--title" in result.stderr
