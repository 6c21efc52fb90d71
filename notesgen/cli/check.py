"""`notesgen check`: what a draft would ask, without writing anything."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from notesgen.cli import options
from notesgen.errors import InputError
from notesgen.settle.trust.ask import Ask

if TYPE_CHECKING:
    from notesgen.lesson.model import Lesson

QUERIES_OPEN = NOTHING_FOUND = 1


class Format(StrEnum):
    """How the result is printed."""

    TEXT = "text"
    JSON = "json"


def _format(typed: str) -> Format:
    if typed not in list(Format):
        raise InputError(f'--format: give {" or ".join(Format)}, not "{typed}".')
    return Format(typed)


def check(
    captions: options.Captions,
    title: options.Title = None,
    key: options.Key = None,
    tuning: options.Tuning = None,
    capo: options.Capo = None,
    instrument: options.Instrument = None,
    ask: options.AskHow = Ask.NORMAL,
    remarks: options.All = False,
    format: Annotated[
        Format,
        typer.Option(metavar="|".join(Format), parser=_format, help="Text for people, JSON for programs."),
    ] = Format.TEXT,
) -> None:
    """Show what a draft would find and ask; write nothing. Ends with 1 while queries stand open."""
    from notesgen.cli.screen import show
    from notesgen.cli.summary import summary
    from notesgen.cli.talk import read
    from notesgen.decisions.store import FILE, read_decisions
    from notesgen.packing import pack_folder

    decisions = () if captions == "-" else read_decisions(pack_folder(captions) / FILE)
    rooms = read(captions, options.given(title, key, tuning, capo, instrument, ask), decisions)
    if format is Format.JSON:
        typer.echo(_json(rooms.lesson))
    else:
        show(summary(rooms.lesson, rooms.transcript, remarks))
    if not rooms.lesson.events:
        show([f"notesgen: no note was found in what is said in {rooms.transcript.source}."], errors=True)
        raise typer.Exit(NOTHING_FOUND)
    if _open(rooms.lesson):
        raise typer.Exit(QUERIES_OPEN)


def _open(lesson: Lesson) -> int:
    return sum(flag.level == "query" and not flag.decided for flag in lesson.flags)


def _json(lesson: Lesson) -> str:
    """Facts, counts and flags, as they stand in lesson.json."""
    import msgspec

    from notesgen.lesson.store import encode

    draft = msgspec.json.decode(encode(lesson))
    counts = {
        "phrases": len(lesson.phrases),
        "notes": len(lesson.events),
        "queries": _open(lesson),
        "remarks": sum(flag.level == "note" for flag in lesson.flags),
    }
    found = {"facts": draft["facts"], "counts": counts, "flags": draft["flags"]}
    return msgspec.json.format(msgspec.json.encode(found), indent=2).decode()
