"""A file is replaced whole, or left as it was."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from notesgen.errors import InputError
from notesgen.lesson.files import write_whole


def test_a_new_file_and_a_replaced_one(tmp_path: Path) -> None:
    file = tmp_path / "lesson.json"
    write_whole(file, b"one\n")
    write_whole(str(file), b"two\n")
    assert file.read_bytes() == b"two\n"
    assert list(tmp_path.iterdir()) == [file]


def test_permissions_and_links_are_kept(tmp_path: Path) -> None:
    file, link = tmp_path / "real.json", tmp_path / "link.json"
    file.write_bytes(b"one")
    file.chmod(0o640)
    link.symlink_to(file)
    write_whole(link, b"two")
    assert link.is_symlink()
    assert file.read_bytes() == b"two"
    assert file.stat().st_mode & 0o777 == 0o640


def test_a_crash_before_the_rename_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "lesson.json"
    write_whole(file, b"old")

    def crash(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", crash)
    with pytest.raises(InputError, match="cannot be written: No space left on device"):
        write_whole(file, b"new")
    assert file.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [file]


def test_a_folder_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"lesson\.json: This file cannot be written"):
        write_whole(tmp_path / "lost" / "lesson.json", b"")
