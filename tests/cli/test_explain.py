"""`notesgen explain` shows each room's reading of some words, or what a flag means."""

from __future__ import annotations

import re
from typing import get_args

import pytest

from notesgen.cli.kinds import NOT_YET, SETTLED, meaning
from notesgen.lesson.model import FlagKind
from notesgen.rehearsal.run import hear
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
    assert {*SETTLED, *NOT_YET} <= set(KINDS)
    assert not set(SETTLED) & set(NOT_YET)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in NOT_YET])
def test_the_examples_raise_the_flag(kind: str) -> None:
    examples = re.findall(r'## Example\n\n"([^"]+)"', meaning(kind) or "")
    assert len(examples) == (meaning(kind) or "").count("## Example") > 0
    for example in examples:
        raised = [flag.kind for flag in hear(" ".join(example.split())).lesson.flags]
        assert kind in raised, example
    assert f"  {kind} (" in notesgen("explain", " ".join(examples[0].split())).stdout


@pytest.mark.parametrize("kind", NOT_YET)
def test_the_page_of_a_flag_that_nothing_raises_says_so(kind: str) -> None:
    assert "Nothing raises this flag yet: it needs the recording" in notesgen("explain", kind).stdout


@pytest.mark.parametrize(
    ("typed", "kind"),
    [("outside-kee", "outside-key"), ("Outside_Key", "outside-key"), ("string-unsad", "string-unsaid")],
)
def test_a_misspelt_kind_is_told_with_those_near_it(typed: str, kind: str) -> None:
    result = notesgen("explain", typed)
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert kind in result.stderr


@pytest.mark.parametrize("words", ["hammer-on", "pull-off", "palm-muted", "twenty-two", "half-step"])
def test_words_with_a_hyphen_are_no_misspelt_kinds(words: str) -> None:
    assert notesgen("explain", words).exit_code == 0
