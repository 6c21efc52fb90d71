"""The lessons in one folder. What a browser names is looked up among them: nothing else is ever opened."""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct

from notesgen.captions.read import read_captions
from notesgen.captions.text import is_text
from notesgen.decisions import kept
from notesgen.errors import InputError
from notesgen.lesson.files import LESSON, write_whole
from notesgen.pack.outputs import outputs
from notesgen.packing import pack_folder
from notesgen.review.given import is_of
from notesgen.review.media import Recording, beside

SUFFIXES = (".vtt", ".srt", ".txt")
LARGEST = 8 * 1024 * 1024
"""Bytes of a captions file that the page takes; an hour of talk has about 0.1 MB."""
START_OF_TEXT = 4096  # characters in which a text file shows whether its lines begin with a time


class Shelf(Struct, frozen=True):
    """A folder of captions. `named` may have any ending; `recording` is the one that belongs to it."""

    folder: Path
    named: Path | None = None
    recording: Recording | None = None

    def lessons(self) -> tuple[Path, ...]:
        """The captions files, by name. A link that leads out of the folder is not one of them, nor is a file
        of a pack that lies here."""
        made = _made(self.folder)
        found = (path for path in self.folder.iterdir() if path.name not in made)
        listed = {path.name: path for path in found if _holds_captions(path, self.folder)}
        if self.named is not None and self.named.is_file():
            listed[self.named.name] = self.named
        return tuple(listed[name] for name in sorted(listed, key=str.casefold))

    def captions(self, name: str) -> Path | None:
        """The captions file of that name, None where the folder has none."""
        return next((path for path in self.lessons() if path.name == name), None)

    def recording_of(self, captions: Path) -> Recording | None:
        """The recording that was named with these captions, else one that lies beside them."""
        return self.recording if self.recording and captions == self.named else beside(captions)

    def add(self, name: str, data: bytes) -> Path:
        """Keeps captions that were dropped on the page, and returns where. The same file is kept once.

        A name that is taken by other captions, or whose pack would share a folder with theirs, gets a number.
        Raises InputError, and writes nothing, when the data holds no captions.
        """
        wanted = Path(_plain(name))
        read_captions(data, wanted.name)
        made = _made(self.folder)
        for number in range(1, 1000):
            path = self.folder / (wanted.name if number == 1 else f"{wanted.stem}-{number}{wanted.suffix}")
            if path.name in made:
                continue
            if path.is_file() and path.read_bytes() == data:
                return path
            if not path.exists() and not self._is_taken(path):
                write_whole(path, data)
                return path
        raise InputError("There are too many captions of this name; rename the file.", wanted.name)

    def _is_taken(self, captions: Path) -> bool:
        """Whether the folder of the pack is that of other captions, or holds something else."""
        folder = pack_folder(str(captions))
        shared = any(pack_folder(str(other)) == folder for other in self.lessons())
        return shared or (folder.exists() and not is_of(captions, folder))


def _made(folder: Path) -> frozenset[str]:
    """The names of a pack's files where the folder is one."""
    if not any((folder / name).is_file() for name in (kept.FILE, LESSON)):
        return frozenset()
    return frozenset(output.file for output in outputs().values())


def _holds_captions(path: Path, folder: Path) -> bool:
    if path.name.startswith(".") or path.suffix.lower() not in SUFFIXES or not path.is_file():
        return False
    if path.resolve().parent != folder.resolve():
        return False
    return path.suffix.lower() != ".txt" or _is_timed(path)


def _is_timed(path: Path) -> bool:
    """Any text file may lie in the folder; only one whose lines begin with a time is a lesson."""
    try:
        with path.open(encoding="utf-8-sig", errors="replace") as file:
            return is_text(file.read(START_OF_TEXT))
    except OSError:
        return False


def _plain(name: str) -> str:
    """The last part of a path from any system, without what no file name should hold.

    Raises InputError when it has not the ending of captions.
    """
    last = name.replace("\\", "/").rpartition("/")[2]
    kept = "".join(letter for letter in last if letter.isprintable() and letter not in '<>:"|?*').strip(". ")
    if Path(kept).suffix.lower() not in SUFFIXES or len(kept.encode()) > 200:
        raise InputError(f"Drop a captions file here: its name ends in {', '.join(SUFFIXES)}.")
    return kept
