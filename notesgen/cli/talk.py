"""Captions, or a few words typed, through every room."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from notesgen.cli.screen import show

if TYPE_CHECKING:
    from notesgen.decisions.model import Decision
    from notesgen.pipeline import Given, Rooms


def read(captions: str, given: Given, decisions: Sequence[Decision] = ()) -> Rooms:
    """The captions at that path ("-" for standard input) through every room. Warnings go to standard error.

    Raises InputError when the captions cannot be used.
    """
    from notesgen.captions.source import load_captions
    from notesgen.pipeline import rooms

    transcript = load_captions(captions)
    show((f"notesgen: {warning}" for warning in transcript.warnings), errors=True)
    return rooms(transcript, given, decisions=decisions)
