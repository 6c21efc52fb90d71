"""`notesgen answer`: the teacher's decisions on a pack."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from notesgen.cli import options
from notesgen.errors import InputError

if TYPE_CHECKING:
    from notesgen.captions.transcript import Transcript
    from notesgen.decisions.folder import Open
    from notesgen.decisions.model import Decision
    from notesgen.decisions.store import Entry

LAST = "last"
Pack = Annotated[Path, typer.Argument(metavar="PACK", help="The folder of the pack.")]
Answers = Annotated[
    list[str] | None,
    typer.Argument(
        metavar="ANSWER...",
        help="The number of a question and a choice, 1=b, or a place of your own, 1=2/8 (string/fret).",
    ),
]
Set = Annotated[
    list[str] | None,
    typer.Option(
        "--set",
        metavar="NOTE→NOTE",
        help='Any note by hand: "2/9→2/8" or "2/9->2/8 at 1:32" (string/fret), "2/9->pull-off", "2/9->none".',
    ),
]
Undo = Annotated[
    list[str] | None,
    typer.Option("--undo", metavar="NUMBER", help='Take back the answer to a question; "last" the last one.'),
]


def answer(
    pack: Pack,
    answers: Answers = None,
    set_notes: Set = None,
    undo: Undo = None,
    width: options.Width = 80,
    remarks: options.All = False,
) -> None:
    """Answer questions of a pack and write it anew. Without answers, show what is open."""
    from notesgen.cli.decided import line, told
    from notesgen.cli.screen import show
    from notesgen.cli.summary import counts, questions
    from notesgen.decisions.folder import decide, open_pack, take_back
    from notesgen.pack.layout.style import Style
    from notesgen.pack.outputs import outputs
    from notesgen.packing import pack_folder, write_pack

    opened = open_pack(pack_folder(str(pack)) if pack.is_file() else pack)
    entries = _entries(opened, answers or [], set_notes or [])
    if undo:
        opened = take_back(opened, _taken_back(opened, undo))
    if entries:
        opened = decide(opened, entries)
    transcript = _captions(opened)
    there = [output for output in outputs().values() if (opened.folder / output.file).exists()]
    style = Style(width=width, transcript=transcript)
    write_pack(opened.lesson, opened.folder, style, there or None, opened.draft)
    show(line(entry.decision) for entry in entries)
    show(told(opened.decisions, opened.applied.unplaced))
    show(["", counts(opened.lesson, remarks)])
    show(questions(opened.lesson, transcript))


def _entries(opened: Open, answers: list[str], set_notes: list[str]) -> list[Entry]:
    """All that was typed, as decisions; nothing is written before all of it is understood."""
    from notesgen.decisions.store import Entry
    from notesgen.decisions.typed import answered, set_by_hand
    from notesgen.pack.layout.clock import clock
    from notesgen.pack.layout.sheet import all_queries

    maker, queries = opened.maker(), all_queries(opened.lesson)
    entries = []
    asked: set[str] = set()
    for text in answers:
        flag, made = answered(text, queries, opened.lesson, maker)
        if flag.id in asked:
            raise InputError(f"Two answers to one question: {' '.join(answers)}. Give it one.")
        asked.add(flag.id)
        entries.append(Entry(made, f"{clock(flag.start)}  {flag.message}"))
    for text in set_notes:
        made = set_by_hand(text, opened.lesson, maker)
        entries.append(Entry(made, f"{clock(made.at)}  Set by hand"))
    return entries


def _taken_back(opened: Open, undo: list[str]) -> list[Decision]:
    """The decisions to take back. Raises InputError for a question without an answer."""
    from notesgen.decisions.typed import question
    from notesgen.pack.layout.sheet import all_queries

    taken: list[Decision] = []
    for text in undo:
        if text == LAST:
            found = opened.decisions[-1:]
        else:
            flag = question(text, all_queries(opened.lesson))
            found = opened.decisions_on(flag.id)
        if not found:
            raise InputError(f"There is no answer to take back: --undo {text}.")
        taken.extend(found)
    return taken


def _captions(opened: Open) -> Transcript | None:
    """The captions of the pack, where they lie in its folder or beside it and are still the same."""
    from notesgen.captions.source import load_captions

    source = opened.lesson.source
    for folder in (opened.folder.resolve().parent, opened.folder):
        file = folder / source.captions
        if source.captions and file.is_file():
            try:
                found = load_captions(str(file))
            except InputError:
                continue
            if round(found.duration, 3) == round(source.duration, 3):
                return found
    return None
