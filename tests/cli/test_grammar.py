"""`notesgen grammar`: the examples from the command line, and samples of wordings."""

from __future__ import annotations

from notesgen.cli.rehearsed import report
from notesgen.rehearsal.run import Result
from tests.cli.run import notesgen

WRONG = Result(
    idiom="hammer-on with both frets",
    file="hammer-ons.toml",
    heard="hammer-on from 5 to 7",
    expected=("?/5 pick", "?/7 hammer-on"),
    got=("1/5 pick",),
    read_by=("bare fret",),
    problem="other notes came out",
)


def shown(result: Result, never: tuple[str, ...] = ()) -> str:
    return "\n".join(line if isinstance(line, str) else line[0] for line in report([result], never))


def test_one_file_is_tried_by_name_or_path() -> None:
    for name in ("tied", "tied.toml", "grammars/en/idioms/tied.toml"):
        result = notesgen("grammar", "test", name)
        assert result.exit_code in (0, 1)
        assert "failed." in result.stdout


def test_a_file_that_is_not_there_is_told() -> None:
    result = notesgen("grammar", "test", "yodels.toml")
    assert result.exit_code == 2
    assert "hammer-ons.toml" in result.stderr


def test_a_failure_shows_heard_expected_and_got() -> None:
    assert shown(WRONG).splitlines() == [
        "hammer-on with both frets (hammer-ons.toml)",
        "  heard     hammer-on from 5 to 7",
        "  expected  ?/5 pick; ?/7 hammer-on",
        "  got       1/5 pick",
        "  read by   bare fret",
        "  Other notes came out.",
        "",
        "1 example: 0 passed, 1 failed.",
    ]


def test_a_known_failure_that_is_right_now_is_told() -> None:
    told = shown(Result("open string", "notes.toml", "open A", known="letters alone"))
    assert "take known_failure out" in " ".join(told.split())


def test_known_failures_are_counted_by_themselves() -> None:
    passed = Result("open string", "notes.toml", "open A")
    known = Result("open string", "notes.toml", "open Z", problem="no notes came out", known="no such string")
    told = [line for line in report([passed, known, WRONG], ()) if isinstance(line, str)]
    assert told[-1] == "3 examples: 1 passed, 1 failed. 1 more is marked as a known failure."


def test_an_idle_idiom_is_told() -> None:
    assert '"open string" reads none of its own examples' in shown(WRONG, ("open string",))


def test_samples_of_an_idiom_and_of_a_phrase() -> None:
    assert len(notesgen("grammar", "sample", "trill", "-n", "4").stdout.strip().splitlines()) == 5
    assert "<then>" in notesgen("grammar", "sample", "then").stdout


def test_a_name_that_is_not_there_is_told_with_those_near_it() -> None:
    result = notesgen("grammar", "sample", "hammer-in with both frets")
    assert result.exit_code == 2
    assert "hammer-on with both frets" in result.stderr
