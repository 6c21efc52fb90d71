"""The right answers are read, and every lesson in fixtures/lessons keeps to their format."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import pytest

from notesgen.errors import InputError
from notesgen.lesson.model import How
from tests.accuracy import cases
from tests.accuracy.gold import HEADER, read_gold, seconds

ROWS = "1:05\ta\t3\t7\tbend\tbend=0.5;vibrato\tmisspoken said=3/8\n\n1:06\t\t6\tx\tpick\t\t\n"
FACTS = 'tuning = ["E4","B3","G3","D3","A2","E2"]\nkey = "B minor"\n'


def write(folder: Path, rows: str) -> Path:
    (folder / "a.gold.toml").write_text(FACTS)
    (folder / "a.vtt").write_text("WEBVTT\n")
    tsv = folder / "a.gold.tsv"
    tsv.write_text("\t".join(HEADER) + "\n" + rows)
    return tsv


def test_a_row_is_read_to_its_last_cell(tmp_path: Path) -> None:
    bend, dead = read_gold(write(tmp_path, ROWS)).notes
    assert (bend.time, bend.string, bend.fret, bend.how, bend.bend) == (65.0, 3, 7, "bend", 0.5)
    assert (bend.together, bend.marks, bend.doubt_kind) == (True, frozenset({"vibrato"}), "misspoken")
    assert (dead.fret, dead.bend, dead.together, dead.doubt) == ("x", None, False, "")


def test_a_bad_row_is_named_by_its_line(tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"a\.gold\.tsv:3: This row cannot be read"):
        read_gold(write(tmp_path, "1:05\t\t3\t7\tpick\t\t\n1:05\t\tG\t7\tpick\t\t\n"))


@pytest.mark.parametrize(("clock", "total"), [("0:05", 5), ("2:03", 123), ("1:00:01", 3601), ("0:01.5", 1.5)])
def test_seconds(clock: str, total: float) -> None:
    assert seconds(clock) == total


def test_cases_are_found_flat_and_in_folders(tmp_path: Path) -> None:
    write(tmp_path, ROWS)
    (tmp_path / "b").mkdir()
    for file in ("a.vtt", "a.gold.tsv", "a.gold.toml"):
        (tmp_path / "b" / file.replace("a.", "b.", 1)).write_bytes((tmp_path / file).read_bytes())
    assert [case.name for case in cases.find(tmp_path)] == ["a", "b"]
    assert [case.name for case in cases.find(tmp_path, ["b"])] == ["b"]


def test_a_lesson_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="No right answer lost here"):
        cases.find(cases.LESSONS, ["lost"])
    with pytest.raises(InputError, match="No right answer"):
        cases.find(tmp_path)


@pytest.mark.parametrize("case", cases.find(), ids=lambda case: case.name)
def test_every_lesson_keeps_to_the_format(case: cases.Case) -> None:
    gold = read_gold(case.gold)
    assert len(gold.tuning) in (4, 5, 6, 7)
    assert all(note.how in get_args(How) and 1 <= note.string <= len(gold.tuning) for note in gold.notes)
    times = [note.time for note in gold.notes]
    assert times == sorted(times)
