"""`notesgen explain`: how words were read, room by room, or what a kind of flag means."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

import typer

from notesgen.cli import options


def explain(
    what: Annotated[
        str,
        typer.Argument(
            metavar="WORDS|KIND", help='Words of a lesson in quotes, or a kind such as "outside-key".'
        ),
    ],
    key: options.Key = None,
    tuning: options.Tuning = None,
    capo: options.Capo = None,
    instrument: options.Instrument = None,
) -> None:
    """Show how words are read, or what a kind of flag means."""
    from notesgen.cli.kinds import meaning, near_kinds
    from notesgen.cli.screen import show

    told = meaning(what.strip().lower())
    if told is not None:
        show([(what.strip().lower(), "bold"), *_flowed(told)])
        return
    from notesgen.cli.reading import reading
    from notesgen.errors import InputError
    from notesgen.rehearsal.run import hear

    near = near_kinds(what)
    if near:
        raise InputError(f'There is no kind of flag "{what.strip()}"; did you mean {" or ".join(near)}?')
    if not what.strip():
        raise InputError('There is nothing to explain; give words in quotes, such as "5 on the G".')
    show(reading(hear(what, options.given(key=key, tuning=tuning, capo=capo, instrument=instrument))))


def _flowed(text: str) -> Iterator[str | tuple[str, str]]:
    """Paragraphs wrapped for the terminal; headings in bold."""
    from notesgen.cli.screen import wrapped

    under_heading = True
    for block in text.split("\n\n"):
        heading = block.removeprefix("## ")
        if heading != block or not under_heading:
            yield ""
        under_heading = heading != block
        yield from [(heading, "bold")] if under_heading else wrapped(block, 2)
