"""Undo and redo where the file cannot be written: the step is still there afterwards."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from notesgen.decisions.model import Decision, Target
from notesgen.decisions.store import FILE, Entry, read_decisions
from notesgen.errors import InputError
from notesgen.review import steps
from notesgen.review.steps import Steps

SET = Target(at=1.0, words="then 8", was="1/8", nth=1, notes="2/8")
MADE = Decision(answer="8", at=1.0, words="then 8", targets=(SET,))


def full(*_: Any) -> None:
    raise InputError("This file cannot be written.")


def test_an_undo_or_redo_that_fails_can_be_tried_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / FILE
    one = Steps(file)
    one.make(Entry(MADE))
    for again in (one.undo, one.redo):
        before = read_decisions(file)
        with monkeypatch.context() as patched:
            patched.setattr(steps, "rewrite", full)
            with pytest.raises(InputError):
                again()
        assert read_decisions(file) == before
        assert again() == MADE
        assert read_decisions(file) != before
