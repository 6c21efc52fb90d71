"""The command as the shell runs it: quick, quiet when interrupted, quiet when nobody reads on."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from notesgen import __version__
from tests.cli.run import DOUBTFUL

RUN = [sys.executable, "-c", "from notesgen.cli.app import main; main()"]
HEAVY = ("spacy", "webvtt", "rapidfuzz", "text_to_num", "rich.console", "notesgen.pipeline")


def test_help_loads_nothing_heavy() -> None:
    code = f"""
import sys
from notesgen.cli.app import app
try:
    app(["--help"])
except SystemExit:
    pass
print([name for name in {HEAVY!r} if name in sys.modules])
"""
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert shown.splitlines()[-1] == "[]"


def test_version() -> None:
    shown = subprocess.run([*RUN, "--version"], capture_output=True, text=True, check=True).stdout
    assert shown == f"notesgen {__version__}\n"


def test_completion_is_offered() -> None:
    environment = {
        **os.environ,
        "_NOTESGEN_COMPLETE": "complete_bash",
        "COMP_WORDS": "notesgen dr",
        "COMP_CWORD": "1",
    }
    code = "import sys; sys.argv[0] = 'notesgen'; from notesgen.cli.app import main; main()"
    shown = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, env=environment, check=False
    )
    assert "draft" in shown.stdout.split()


def test_a_reader_that_stops_early_is_no_error(tmp_path: Path) -> None:
    captions = tmp_path / "long.txt"
    captions.write_text("\n".join(f"[{minute}:00] then fret 5, and 7" for minute in range(200)))
    process = subprocess.Popen(
        [*RUN, "check", str(captions)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert process.stdout and process.stderr
    process.stdout.readline()
    process.stdout.close()
    assert process.stderr.read() == ""
    process.stderr.close()
    process.wait(60)


def _hear_interrupts() -> None:
    """Where the tests run in the background, what they start would ignore Ctrl+C."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


@pytest.mark.skipif(sys.platform == "win32", reason="signals differ")
def test_ctrl_c_is_quiet() -> None:
    process = subprocess.Popen(
        [*RUN, "check", "-"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        preexec_fn=_hear_interrupts,
    )
    time.sleep(1.0)  # by now it waits for its input
    process.send_signal(signal.SIGINT)
    output, errors = process.communicate(timeout=60)
    assert (process.returncode, output, errors.strip()) == (130, "", "")


def test_a_terminal_without_the_characters_shows_question_marks() -> None:
    environment = {**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    result = subprocess.run(
        [*RUN, "check", "-"],
        input=f"{DOUBTFUL} été".encode(),
        capture_output=True,
        env=environment,
        check=False,
    )
    assert (result.returncode, result.stderr) == (1, b"")
