"""`notesgen draft`: captions to a pack."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from notesgen.cli import options
from notesgen.errors import InputError
from notesgen.settle.trust.ask import Ask

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
    only: options.Only = None,
    width: options.Width = 80,
    ask: options.AskHow = Ask.NORMAL,
    remarks: options.All = False,
) -> None:
    """Draft a lesson: write its tab and notes, and show what is open."""
    from notesgen.cli.decided import told
    from notesgen.cli.screen import show
    from notesgen.cli.summary import summary
    from notesgen.cli.talk import read
    from notesgen.decisions.store import FILE, read_decisions
    from notesgen.pack.layout.style import Style
    from notesgen.pack.outputs import chosen
    from notesgen.packing import pack_folder, write_pack

    wanted = chosen(only)
    folder = out or pack_folder(captions)
    _spare(captions, folder, [output.file for output in wanted])
    decisions = read_decisions(folder / FILE)
    rooms = read(captions, options.given(title, key, tuning, capo, instrument, ask), decisions)
    style = Style(width=width, transcript=rooms.transcript)
    written = write_pack(rooms.lesson, folder, style, wanted, rooms.drafted)
    show(summary(rooms.lesson, rooms.transcript, remarks))
    show(told(decisions, rooms.unplaced))
    show(["", f"Written to {folder}: {', '.join(sorted(path.name for path in written))}."])


def _spare(captions: str, folder: Path, files: list[str]) -> None:
    """Raises InputError where a file of the pack would take the place of the captions."""
    for name in files:
        if captions != "-" and (folder / name).absolute() == Path(captions).absolute():
            raise InputError(
                "The pack would replace these captions; give it another folder with --out.", captions
            )
