"""The command line: every command by name, and the one place where errors become sentences."""

from __future__ import annotations

import io
import sys
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from notesgen import __version__
from notesgen.cli import answer, check, demo, draft, explain, grammar, pack, review
from notesgen.errors import InputError

BAD_INPUT = 2
INTERRUPTED = 130  # 128 + SIGINT, as shells count it


class Commands(TyperGroup):
    """The commands, with input that cannot be used told in one line and no traceback."""

    def invoke(self, ctx: Any) -> Any:
        """Runs the command. Raises typer.Exit with status 2 on bad input, 130 on Ctrl-C."""
        try:
            return super().invoke(ctx)
        except InputError as error:
            typer.echo(f"notesgen: {_printable(str(error))}", err=True)
            raise typer.Exit(BAD_INPUT) from None
        except KeyboardInterrupt:
            raise typer.Exit(INTERRUPTED) from None


app = typer.Typer(
    cls=Commands,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)
app.command("draft")(draft.draft)
app.command("pack")(pack.pack)
app.command("answer")(answer.answer)
app.command("review")(review.review)
app.command("check")(check.check)
app.command("explain")(explain.explain)
app.command("demo")(demo.demo)
app.add_typer(grammar.app, name="grammar")


def _show_version(asked: bool) -> None:
    if asked:
        typer.echo(f"notesgen {__version__}")
        raise typer.Exit


@app.callback()
def options(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_show_version, is_eager=True, help="Show the version and stop."),
    ] = False,
) -> None:
    """Turns the captions of a spoken guitar lesson into a flagged draft tab and lesson notes."""


def main() -> None:
    """Entry point. A terminal that lacks a character shows "?" in its place."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    app()


def _printable(text: str) -> str:
    """One line without control characters, which a file's name or content may bring along."""
    return "".join(letter if letter.isprintable() else "?" for letter in " ".join(text.split()))
