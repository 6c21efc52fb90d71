"""`notesgen draft`: captions to a pack."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from notesgen.cli import options

Out = Annotated[
    Path | None,
    typer.Option(
        metavar="DIR", help="The folder for the pack; a folder named after the captions unless given."
    ),
]


def draft(
    captions: options.Captions,
    out: Out = None,
    title: options.Title = None,
    key: options.Key = None,
    tuning: options.Tuning = None,
    capo: options.Capo = None,
    instrument: options.Instrument = None,
    width: options.Width = 80,
    remarks: options.All = False,
) -> None:
    """Draft a lesson: write its tab and notes, and show what is open."""
    from notesgen.cli.screen import show
    from notesgen.cli.summary import summary
    from notesgen.cli.talk import read
    from notesgen.pack.layout.style import Style
    from notesgen.packing import pack_folder, write_pack

    folder = out or pack_folder(captions)
    rooms = read(captions, options.given(title, key, tuning, capo, instrument))
    written = write_pack(rooms.lesson, folder, Style(width=width, transcript=rooms.transcript))
    show(summary(rooms.lesson, rooms.transcript, remarks))
    show(["", f"Written to {folder}: {', '.join(sorted(path.name for path in written))}."])
