"""What comes from captions is printed as it stands."""

from __future__ import annotations

import pytest

from notesgen.cli.screen import counted, show, wrapped
from tests.cli.run import notesgen


@pytest.mark.parametrize(
    "text", ["[b]7[/b] [red]on[/] the G", ":guitar: 7", "a" * 300, "\\[x]", "7 on the G♯"]
)
def test_text_is_printed_as_it_stands(text: str, capsys: pytest.CaptureFixture[str]) -> None:
    show([text, (text, "bold")])
    assert capsys.readouterr().out == f"{text}\n{text}\n"


def test_control_codes_are_not_passed_on(capsys: pytest.CaptureFixture[str]) -> None:
    show(["a\x1b[31mb\x9b1mc"])
    assert capsys.readouterr().out == "a?[31mb?1mc\n"


def test_errors_go_to_standard_error(capsys: pytest.CaptureFixture[str]) -> None:
    show(["oh"], errors=True)
    assert capsys.readouterr() == ("", "oh\n")


def test_long_text_hangs_under_its_label() -> None:
    lines = wrapped("word " * 30, 2, 10, "heard")
    assert lines[0].startswith("  heard     word word")
    assert all(line.startswith(" " * 12 + "word") and len(line) <= 80 for line in lines[1:])


@pytest.mark.parametrize(("number", "told"), [(0, "0 queries"), (1, "1 query"), (2, "2 queries")])
def test_counts_agree_with_their_noun(number: int, told: str) -> None:
    assert counted(number, "query", "queries") == told


@pytest.mark.parametrize("group", [(), ("grammar",)])
def test_the_help_tells_each_command_in_one_whole_line(group: tuple[str, ...]) -> None:
    commands = notesgen(*group, "--help").stdout.split("Commands:\n")[1]
    assert "..." not in commands
    assert all(len(line) <= 80 for line in commands.splitlines())
