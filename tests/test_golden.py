"""Golden files fail loudly, and are rewritten only when asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.golden import check, unused


def test_a_difference_is_shown_with_the_option_that_accepts_it(tmp_path: Path) -> None:
    file = tmp_path / "tab.txt"
    with pytest.raises(AssertionError, match=r"no golden file .*\n.*--update-golden"):
        check(file, b"new\n", update=False)
    file.write_bytes(b"old\n")
    with pytest.raises(AssertionError, match=r"-old\n\+new\n.*--update-golden"):
        check(file, b"new\n", update=False)
    assert file.read_bytes() == b"old\n"


def test_update_rewrites(tmp_path: Path) -> None:
    file = tmp_path / "golden" / "tab.txt"
    check(file, b"new\n", update=True)
    check(file, b"new\n", update=False)


def test_files_that_no_test_names_are_told(tmp_path: Path) -> None:
    for name in ("a.txt", "b.txt"):
        (tmp_path / name).touch()
    assert unused(tmp_path, ["a.txt"]) == ["b.txt"]
