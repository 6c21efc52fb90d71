"""Decisions in another order: what was typed around them stays with them."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesgen.decisions.model import Decision, Target
from notesgen.decisions.rewriting import add, rewrite
from notesgen.decisions.store import Entry, read_decisions
from notesgen.errors import InputError

TWO = '[[decision]]\nanswer = "two"'
REMARKED = '# mine\n[[decision]]\nanswer = "two"  # sure'


def decision(answer: str, at: float = 1.0) -> Decision:
    return Decision(answer=answer, at=at, words="on 6", targets=(Target(at=at, words="on 6", was="3/6"),))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Three decisions, with remarks of the teacher's own."""
    file = tmp_path / "decisions.toml"
    add(
        file,
        [Entry(decision("one", 1.0), "asked"), Entry(decision("two", 2.0)), Entry(decision("three", 3.0))],
    )
    text = file.read_text("utf-8").replace(
        '[[decision]]\nanswer = "two"', '# mine\n[[decision]]\nanswer = "two"  # sure'
    )
    assert "# mine" in text
    file.write_text(text, "utf-8")
    return file


def answers(path: Path) -> list[str]:
    return [one.answer for one in read_decisions(path)]


def test_order_changes_and_remarks_go_along(path: Path) -> None:
    head = path.read_text("utf-8").split("[[decision]]")[0]
    rewrite(path, lambda held: [Entry(one) for one in reversed(held)])
    text = path.read_text("utf-8")
    assert answers(path) == ["three", "two", "one"]
    assert text.startswith(head.strip())
    assert REMARKED in text
    assert text.index("# asked") > text.index("# mine")


def test_nothing_changes_where_nothing_is_changed(path: Path) -> None:
    before = path.read_text("utf-8")
    rewrite(path, lambda held: [Entry(one) for one in held])
    rewrite(path, lambda held: [Entry(one) for one in held])
    assert path.read_text("utf-8").split() == before.split()


def test_one_goes_and_one_comes(path: Path) -> None:
    left = rewrite(path, lambda held: [Entry(held[0]), Entry(held[2]), Entry(decision("four", 4.0), "new")])
    assert answers(path) == [one.answer for one in left] == ["one", "three", "four"]
    assert "# mine" not in path.read_text("utf-8")


def test_a_file_begins_with_what_it_is(tmp_path: Path) -> None:
    file = tmp_path / "decisions.toml"
    rewrite(file, lambda held: [*map(Entry, held), Entry(decision("one"))])
    assert file.read_text("utf-8").startswith("# What you decided")
    assert answers(file) == ["one"]


def test_a_faulty_file_is_told_and_left_alone(path: Path) -> None:
    path.write_text(path.read_text("utf-8") + "\n[[decision]\n", "utf-8")
    before = path.read_bytes()
    with pytest.raises(InputError, match="TOML"):
        rewrite(path, lambda held: [])
    assert path.read_bytes() == before


def test_what_could_not_be_read_again_is_never_written(path: Path) -> None:
    before = path.read_bytes()
    bad = Decision(answer="four", at=4.0, words="on 6", targets=(Target(at=4.0, words="on 6", was="3/1000"),))
    with pytest.raises(InputError, match="names no notes"):
        rewrite(path, lambda held: [*map(Entry, held), Entry(bad)])
    assert path.read_bytes() == before


def test_all_that_decided_the_same_before_goes(path: Path) -> None:
    add(path, [Entry(decision("anew", 1.0)), Entry(decision("last", 1.0))])
    assert answers(path) == ["two", "three", "last"]
