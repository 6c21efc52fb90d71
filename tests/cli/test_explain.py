"""`notesgen explain` shows each room's reading of some words, or what a flag means."""

from __future__ import annotations

from typing import get_args

import pytest

from notesgen.cli.kinds import SETTLED, meaning
from notesgen.lesson.model import FlagKind
from tests.cli.run import notesgen

KINDS = get_args(FlagKind)


def test_words_are_followed_through_every_room() -> None:
    shown = notesgen("explain", "well, hammer-on from 5 to 7 of the G").stdout
    for room in ("Words", "Mentions", "Instructions", "2 notes", "flag"):
        assert room in shown
    assert "hammer-on with both frets (hammer-ons.toml:" in shown
    assert "from=5  to=7" in shown
    assert "3/7 hammer-on" in shown


def test_words_that_no_idiom_takes_are_named() -> None:
    assert "(wibble wobbly)  taken by no idiom" in notesgen("explain", "wibble wobbly, 7 on the G").stdout


def test_what_is_given_counts() -> None:
    assert "outside-key" in notesgen("explain", "6 on the G, then 5 on the G", "--key", "C major").stdout


@pytest.mark.parametrize(
    "words", ["um", "...", "[Music]", "7", "[b]7[/b] on the G", "00:01 --> 00:02", "# 5"]
)
def test_odd_words_raise_nothing(words: str) -> None:
    result = notesgen("explain", words)
    assert result.exit_code in (0, 2), result.output
    assert result.exception is None or isinstance(result.exception, SystemExit)


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_flag_has_a_meaning(kind: str) -> None:
    told = meaning(kind)
    assert told, "no check raises this kind, and cli/kinds.py does not tell of it"
    assert "## Example" in told
    assert "## What to do" in told
    assert notesgen("explain", kind).stdout.startswith(kind)


def test_settled_kinds_are_kinds() -> None:
    assert set(SETTLED) <= set(KINDS)
