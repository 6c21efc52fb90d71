"""The pack, made from the page, and its files shown."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote

from msgspec import Struct
from starlette.exceptions import HTTPException
from starlette.responses import FileResponse, Response

from notesgen.errors import InputError
from notesgen.pack.layout.style import Style, is_unsettled
from notesgen.pack.outputs import outputs
from notesgen.packing import STUDENT, write_files, write_pack
from notesgen.review.desk import Desk
from notesgen.review.headers import SANDBOX

WHAT = {
    "notes.html": "the lesson's notes, to read and to play along with",
    "notes.pdf": "the hand-out, to print",
    "notes.md": "the notes as plain text, for places that take it",
    "tab.txt": "the tab as plain text",
    "lesson.mid": "the notes to hear, in any player of MIDI",
    "lesson.musicxml": "the tab for programs that print music",
    "chapters.vtt": "the chapters, for the player of your video",
    "chapters.txt": "the chapters, to paste below your video",
    "corrections.md": "what you said wrong, with a sentence for each",
    "captions.vtt": "the captions, put right",
}
TYPES = {
    ".html": "text/html; charset=utf-8",
    ".pdf": "application/pdf",
    ".mid": "audio/midi",
}
SHOWN = (".html", ".pdf", ".txt", ".md", ".vtt")


class File(Struct, frozen=True):
    """A file of the pack, what it is for, and its address on the page."""

    name: str
    what: str
    link: str


class Made(Struct, frozen=True):
    """The pack: where it lies, and its files."""

    folder: str
    files: tuple[File, ...]


def make(desk: Desk) -> Made:
    """Writes the pack of a lesson, and in it what students get. Raises InputError while queries are open."""
    desk.look()
    if is_unsettled(desk.lesson):
        raise InputError("Queries are still open; answer them first.")
    write_pack(desk.lesson, desk.folder, Style(transcript=desk.transcript))
    folder = desk.folder / STUDENT
    style = Style(edition="student", transcript=desk.transcript)
    written = write_files(desk.lesson, folder, style, outputs().values())
    names = sorted((path.name for path in written), key=_order)
    base = f"/pack/{quote(desk.captions.name, safe='')}"
    return Made(str(folder), tuple(File(name, WHAT.get(name, ""), f"{base}/{name}") for name in names))


def served(folder: Path, name: str) -> Response:
    """A file that students get. Raises HTTPException 404 for a name that no pack has, or if it is not made.

    `folder` is that of the pack.
    """
    known = {output.file for output in outputs().values()}
    path = folder / STUDENT / name
    if name not in known or not path.is_file() or path.resolve().parent != path.parent.resolve():
        raise HTTPException(404, "There is no such file in the pack; make it first.")
    headers = {"content-security-policy": SANDBOX} if path.suffix == ".html" else {}
    return FileResponse(
        path,
        headers=headers,
        media_type=TYPES.get(path.suffix, "text/plain; charset=utf-8"),
        filename=name,
        content_disposition_type="inline" if path.suffix in SHOWN else "attachment",
    )


def _order(name: str) -> tuple[int, str]:
    names = list(WHAT)
    return (names.index(name) if name in WHAT else len(names), name)
