"""`notesgen review`: the page on which a teacher answers."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from notesgen.cli import options
from notesgen.errors import InputError

Captions = Annotated[
    str,
    typer.Argument(metavar="CAPTIONS", help="The caption file (.vtt, .srt, .txt), or a folder of lessons."),
]
Media = Annotated[
    Path | None,
    typer.Option(
        metavar="FILE",
        help="The recording, video or audio. One beside the captions that bears their name is found.",
    ),
]
Port = Annotated[
    int,
    typer.Option(
        metavar="NUMBER", parser=options.whole("--port", 0, 65535), help="The port; 0 takes any free one."
    ),
]


def review(
    captions: Captions = ".",
    media: Media = None,
    no_open: Annotated[bool, typer.Option("--no-open", help="Only print the address.")] = False,
    port: Port = 0,
    title: options.Title = None,
    key: options.Key = None,
    tuning: options.Tuning = None,
    capo: options.Capo = None,
    instrument: options.Instrument = None,
) -> None:
    """Answer what a draft asks, on a page in your browser. Ctrl+C ends it; answers are kept at once."""
    from notesgen.review.session import Session

    if captions == "-":
        raise InputError("Give the captions as a file: the answers are kept beside it.")
    given = options.given(title, key, tuning, capo, instrument)
    session = Session(Path(captions), media, given, port)
    typer.echo(session.address)
    if not no_open:
        session.open_browser()
    session.serve()
    typer.echo("\nStopped. All your answers are kept.")
