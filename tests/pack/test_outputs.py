"""Formats are found by listing the folder."""

from __future__ import annotations

from notesgen.pack.outputs import outputs
from tests.pack.rich import LESSON


def test_each_format_is_found_with_its_file() -> None:
    found = outputs()
    assert found["tab"].file == "tab.txt"
    assert found["markdown"].file == "notes.md"
    assert list(found) == sorted(found)
    assert "outputs" not in found and "layout" not in found


def test_no_two_formats_write_the_same_file() -> None:
    files = [output.file for output in outputs().values()]
    assert len(files) == len(set(files))


def test_the_same_lesson_gives_the_same_bytes() -> None:
    for name in ("tab", "markdown"):
        output = outputs()[name]
        assert output.data(LESSON) == output.data(LESSON)
        made = output.data(LESSON)
        assert made is not None and made.endswith(b"\n")
