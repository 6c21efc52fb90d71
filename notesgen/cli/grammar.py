"""`notesgen grammar`: try the grammar's own examples, and hear what its wordings can say."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from notesgen.cli.options import whole

if TYPE_CHECKING:
    from notesgen.grammar.model import Grammar

FAILED = 1
SHOWN = 12
MOST = 1000

app = typer.Typer(
    no_args_is_help=True, rich_markup_mode=None, help="For those who write idioms: try and sample them."
)

Language = Annotated[str, typer.Option(help="The folder of grammars/ to read.")]


@app.command("test")
def test(
    file: Annotated[
        str | None, typer.Argument(metavar="FILE", help="Only this grammar file, such as hammer-ons.toml.")
    ] = None,
    language: Language = "en",
) -> None:
    """Try every example: what was heard, expected, got. Ends with 1 when one fails."""
    from notesgen.cli.rehearsed import report
    from notesgen.cli.screen import show
    from notesgen.grammar.load import load_grammar
    from notesgen.rehearsal.run import idle, rehearse

    grammar = load_grammar(language)
    results = list(rehearse(grammar, None if file is None else {_file(file, grammar)}))
    never = idle(grammar, results)
    show(report(results, never))
    if never or not all(result.passed for result in results):
        raise typer.Exit(FAILED)


@app.command("sample")
def sample(
    name: Annotated[
        str, typer.Argument(metavar="IDIOM", help="The name of an idiom or a phrase, or a part of it.")
    ],
    number: Annotated[
        int,
        typer.Option(
            "--number", "-n", metavar="NUMBER", parser=whole("--number", 1, MOST), help="How many wordings."
        ),
    ] = SHOWN,
    language: Language = "en",
) -> None:
    """Show some of the wordings that an idiom or a phrase reads."""
    from notesgen.cli.screen import show
    from notesgen.grammar.load import load_grammar
    from notesgen.rehearsal.samples import named, samples

    grammar = load_grammar(language)
    for title, wordings in named(grammar, name):
        show([(title, "bold"), *(f"  {text}" for text in samples(grammar, wordings, number)), ""])


def _file(asked: str, grammar: Grammar) -> str:
    """The grammar file that is meant, by name or path, with or without its ending. Raises InputError."""
    from pathlib import Path

    from notesgen.errors import InputError

    name = Path(asked).name
    files = sorted({idiom.file for idiom in grammar.idioms})
    for candidate in (name, f"{name}.toml"):
        if candidate in files:
            return candidate
    raise InputError(f'"{asked}" is no grammar file with idioms; there are {", ".join(files)}.')
