"""The command line, run inside the test's process."""

from __future__ import annotations

from typer.testing import CliRunner, Result

from notesgen.cli.app import app

TALK = """WEBVTT

00:00:01.000 --> 00:00:05.000
This one is in D minor, standard tuning, no capo.

00:00:06.000 --> 00:00:09.000
On the G string, 5, and hammer on to 7.

00:00:15.000 --> 00:00:18.000
Then 7 on the B, no, sorry, 8 on the B.
"""
SURE = "[0:00] 7 on the G string"
DOUBTFUL = "[0:00] then fret 5, and 7"


def notesgen(*words: str, given: str | bytes = "") -> Result:
    """The result of `notesgen WORDS`, with `given` on standard input."""
    return CliRunner().invoke(app, list(words), input=given, prog_name="notesgen")
