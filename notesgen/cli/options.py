"""The options that several commands share, and what they give."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated

import typer

from notesgen.errors import InputError
from notesgen.settle.trust.ask import Ask

if TYPE_CHECKING:
    from notesgen.pipeline import Given

NARROWEST = 40  # characters; a bar of tab needs room
TUNINGS = (
    "standard", "half step down", "whole step down", "drop D", "double drop D", "drop C#", "drop C", "drop B",
    "DADGAD", "open C", "open D", "open E", "open G", "open A",
)  # fmt: skip

WIDEST = 1000
HIGHEST_CAPO = 12  # frets


def whole(option: str, lowest: int, highest: int) -> Callable[[str | int], int]:
    """A reader of the option's number, typed or by default. It raises InputError outside the limits."""

    def read(typed: str | int) -> int:
        number = int(typed) if str(typed).strip().isdecimal() else None
        if number is None or not lowest <= number <= highest:
            raise InputError(f'{option}: give a whole number from {lowest} to {highest}, not "{typed}".')
        return number

    return read


def _ask(typed: str) -> Ask:
    if typed not in list(Ask):
        raise InputError(f'--ask: give less, normal or more, not "{typed}".')
    return Ask(typed)


Captions = Annotated[
    str,
    typer.Argument(
        metavar="CAPTIONS", help='The caption file (.vtt, .srt, .txt), or "-" for standard input.'
    ),
]
Title = Annotated[str | None, typer.Option(help="The lesson's title.")]
Key = Annotated[str | None, typer.Option(help='The key where the talk does not name it, such as "B minor".')]
Tuning = Annotated[
    str | None,
    typer.Option(help='The tuning, such as "drop D", or the strings from low to high: "D A D G B E".'),
]
Capo = Annotated[
    int | None,
    typer.Option(
        metavar="FRET",
        parser=whole("--capo", 0, HIGHEST_CAPO),
        help=f"The fret at which the capo sits, up to {HIGHEST_CAPO}; 0 for none.",
    ),
]
Instrument = Annotated[
    str | None, typer.Option(help="guitar (unless given), bass, 5-string bass, 7-string guitar, ukulele ...")
]
Width = Annotated[
    int,
    typer.Option(
        metavar="NUMBER",
        parser=whole("--width", NARROWEST, WIDEST),
        help=f"The width of the tab, in characters, from {NARROWEST} to {WIDEST}.",
    ),
]
Only = Annotated[
    str | None,
    typer.Option(metavar="FORMATS", help="Only these formats, apart by commas: md,txt. All unless given."),
]
AskHow = Annotated[
    Ask,
    typer.Option(
        "--ask",
        metavar="|".join(Ask),
        parser=_ask,
        help="How readily to ask about a note that may be wrong: less, normal or more.",
    ),
]
All = Annotated[bool, typer.Option("--all", help="Show the remarks too, not only the queries.")]


def given(
    title: str | None = None,
    key: str | None = None,
    tuning: str | None = None,
    capo: int | None = None,
    instrument: str | None = None,
    ask: Ask = Ask.NORMAL,
) -> Given:
    """What the options say. Raises InputError for an empty title, or what is not understood."""
    from notesgen.music.tuning import parse_tuning, standard
    from notesgen.pipeline import Given

    try:
        standard(instrument or "guitar")
    except ValueError as error:
        raise InputError(f"--instrument: {error}") from None
    if title is not None and not title.strip():
        raise InputError("--title: give the title's words, or leave the option out for the name of the file.")
    if key is not None:
        _check_key(key)
    if tuning is not None:
        try:
            parse_tuning(tuning, instrument or "guitar")
        except ValueError as error:
            raise InputError(f"--tuning: {error} Names for a guitar: {', '.join(TUNINGS)}.") from None
    return Given(key=key, tuning=tuning, capo=capo, instrument=instrument, title=title, ask=ask)


def _check_key(key: str) -> None:
    from notesgen.music.key import parse_key
    from notesgen.music.scale import MODES

    if parse_key(key) is None:
        raise InputError(
            f'--key: "{key}" is no key known here; give a note and a mode, such as "B minor" or '
            f'"F# mixolydian". Modes: {", ".join(MODES)}.'
        )
