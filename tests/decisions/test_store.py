"""`decisions.toml`: read back as written, comments kept, errors with their line, never half-written."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from notesgen.decisions.model import Added, Decision, Target
from notesgen.decisions.rewriting import add, remove
from notesgen.decisions.store import FILE, Entry, parse, read_decisions
from notesgen.errors import InputError

WORDS = st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=12)
TIMES = st.integers(0, 10**7).map(lambda milliseconds: milliseconds / 1000)
ADDED = st.builds(Added, notes=st.just("2/8"), how=st.sampled_from(("pick", "tap")))
TARGETS = st.builds(
    Target,
    at=TIMES,
    words=WORDS,
    was=st.sampled_from(("3/6", "3/9:bend=2 2/7")),
    nth=st.integers(1, 3),
    added=st.integers(-2, 2),
    notes=st.none() | st.just("2/6"),
    how=st.none() | st.just("slide"),
    bend=st.none() | st.just(1.5),
    marks=st.none() | st.just(("vibrato",)),
    drop=st.booleans(),
    times=st.none() | st.integers(1, 4),
    before=st.lists(ADDED, max_size=2).map(tuple),
    after=st.lists(ADDED, max_size=2).map(tuple),
)
DECISIONS = st.builds(
    Decision,
    answer=WORDS,
    at=TIMES,
    words=WORDS,
    asked=st.none() | st.just("string-unsaid"),
    before=WORDS,
    rename=st.none() | WORDS,
    split=st.booleans(),
    targets=st.lists(TARGETS, max_size=3).map(tuple),
)
ONE = Decision(
    answer="on the B string",
    at=1.5,
    words="6",
    asked="string-unsaid",
    targets=(Target(at=1.5, words="6", was="3/6", notes="2/6"),),
)
BY_HAND = """\
# my own words
[[decision]]
answer = "on the B string" # sure of it
at = 1.5
words = "6"
asked = "string-unsaid"
targets = [
  # the only one
  { at = 1.5, words = "6", was = "3/6", notes = "2/6" },
]
"""


def other(n: int) -> Decision:
    return replace(ONE, at=float(n), targets=(replace(ONE.targets[0], at=float(n)),))


@given(DECISIONS)
def test_what_is_written_is_read(tmp_path_factory: pytest.TempPathFactory, decision: Decision) -> None:
    file = tmp_path_factory.mktemp("pack") / FILE
    add(file, [Entry(ONE), Entry(decision, "a comment\nof two lines")])
    assert read_decisions(file) == (ONE, decision)


def test_comments_and_spaces_of_the_teacher_are_kept(tmp_path: Path) -> None:
    file = tmp_path / FILE
    file.write_text(BY_HAND)
    add(file, [Entry(other(2))])
    assert file.read_text().startswith(BY_HAND)
    assert read_decisions(file) == (ONE, other(2))


def test_a_new_answer_to_a_question_is_the_last_word_and_the_old_one_goes(tmp_path: Path) -> None:
    file, anew = tmp_path / FILE, replace(ONE, answer="on the G string")
    add(file, [Entry(ONE), Entry(other(2))])
    add(file, [Entry(anew)])
    assert read_decisions(file) == (other(2), anew)


def test_an_answer_is_taken_back(tmp_path: Path) -> None:
    file = tmp_path / FILE
    add(file, [Entry(ONE), Entry(other(2))])
    remove(file, [ONE])
    assert read_decisions(file) == (other(2),)
    remove(file, [other(2)])
    assert read_decisions(file) == ()


def test_no_file_holds_no_decisions(tmp_path: Path) -> None:
    assert read_decisions(tmp_path / FILE) == ()


@pytest.mark.parametrize(
    ("text", "line", "told"),
    [
        (BY_HAND.replace("answer", "anser"), 3, "anser"),
        (BY_HAND.replace("at = 1.5\n", 'at = "soon"\n'), 4, "a number"),
        (BY_HAND.replace('"2/6"', '"B string"'), 9, "string/fret"),
        (BY_HAND.replace('"string-unsaid"', '"string"'), 6, '"string"'),
        (BY_HAND + BY_HAND.replace("words", "word"), 15, "word"),
        (BY_HAND.replace("[[decision]]", "[decision]"), 2, "[[decision]]"),
        (BY_HAND.replace("[[decision]]", "[[decisions]]"), 2, "decisions"),
        ("answer = \n", 1, "TOML"),
        (BY_HAND + '[[decision]]\nanswer = "a\n', 12, "TOML"),
    ],
)
def test_a_slip_in_the_file_is_one_sentence_with_its_line(text: str, line: int, told: str) -> None:
    with pytest.raises(InputError) as refused:
        parse(text.encode(), "decisions.toml")
    assert refused.value.file == "decisions.toml"
    assert (refused.value.line, told in refused.value.message) == (line, True), refused.value


def test_a_broken_file_is_never_written_over(tmp_path: Path) -> None:
    file = tmp_path / FILE
    file.write_text("[[decision]\n")
    with pytest.raises(InputError):
        add(file, [Entry(ONE)])
    assert file.read_text() == "[[decision]\n"


WRITER = """
import sys
from pathlib import Path
from notesgen.decisions.rewriting import add
from notesgen.decisions.store import Entry
from tests.decisions.test_store import other
for n in range(int(sys.argv[2]), int(sys.argv[3])):
    add(Path(sys.argv[1]), [Entry(other(n))])
    print(n, flush=True)
"""


def writer(file: Path, first: int, end: int) -> subprocess.Popen[str]:
    command = [sys.executable, "-c", WRITER, str(file), str(first), str(end)]
    house = Path(__file__).parents[2]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=house, env={**os.environ})


def test_two_writers_at_once_lose_nothing(tmp_path: Path) -> None:
    file = tmp_path / FILE
    writers = [writer(file, 0, 20), writer(file, 20, 40)]
    assert [one.wait(60) for one in writers] == [0, 0]
    assert {decision.at for decision in read_decisions(file)} == set(map(float, range(40)))


def test_a_kill_at_any_moment_loses_at_most_the_answer_being_written(tmp_path: Path) -> None:
    """Killed a little later each time; all that it had said to be written is there, and at most one more."""
    for round_, wait in enumerate((0.0, 0.003, 0.006, 0.011, 0.017, 0.026)):
        file = tmp_path / f"{round_}.toml"
        one = writer(file, 0, 10_000)
        assert one.stdout is not None
        said = [one.stdout.readline() for _ in range(2)]
        time.sleep(wait)
        one.send_signal(signal.SIGKILL)
        said += one.stdout.readlines()
        one.wait(10)
        told = [float(line) for line in said if line.endswith("\n")]
        kept = [decision.at for decision in read_decisions(file)]
        assert kept[: len(told)] == told
        assert len(kept) <= len(told) + 1
        add(file, [Entry(other(99_999))])
        assert len(read_decisions(file)) == len(kept) + 1, "the lock of the dead does not hold"
