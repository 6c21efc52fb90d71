"""`notesgen explain`: how words were read, room by room, or what a kind of flag means."""

from __future__ import annotations

from typing import Annotated

import typer

from notesgen.cli import options


def explain(
    what: Annotated[
        str, typer.Argument(metavar="WORDS|KIND", help='Words of a lesson in quotes, or a kind such as "outside-key".')
    ],
    key: options.Key = None,
    tuning: options.Tuning = None,
    capo: options.Capo = None,
    instrument: options.Instrument = None,
) -> None:
    """Show how words are read, room by room; or what a kind of flag means."""
    from notesgen.cli.kinds import meaning
    from notesgen.cli.screen import show

    told = meaning(what.strip().lower())
    if told is not None:
        show([(what.strip().lower(), "bold"), "", *told.splitlines()])
        return
    from notesgen.cli.reading import reading
    from notesgen.errors import InputError
    from notesgen.rehearsal.run import hear

    if not what.strip():
        raise InputError('There is nothing to explain; give words in quotes, such as "5 on the G".')
    show(reading(hear(what, options.given(key=key, tuning=tuning, capo=capo, instrument=instrument))))
