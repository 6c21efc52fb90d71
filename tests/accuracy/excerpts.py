"""Short excerpts of talk with right answers, each drafted by itself: how well single sentences are read.

python -m tests.accuracy.excerpts            how many are right, a row a file
python -m tests.accuracy.excerpts --wrong    ... and those that are not
python -m tests.accuracy.excerpts --floors   record how many are right as floors
"""

from __future__ import annotations

import argparse
import sys
import tomllib
from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct, convert

from notesgen.captions.read import read_captions
from notesgen.lesson.model import Event, Lesson
from notesgen.pipeline import draft
from tests.accuracy.draft import DraftNote, as_notes, played_order

FOLDER = Path(__file__).parents[2] / "fixtures" / "excerpts"
FLOORS = Path(__file__).with_name("excerpts.toml")
HEAD = "# How many are right. Written by `python -m tests.accuracy.excerpts --floors`; reviewed like code.\n"


class Excerpt(Struct, frozen=True, forbid_unknown_fields=True):
    """The words, and the notes that they tell: "5/7 hammer-on", together "6/3+5/5"; picked unless said."""

    heard: str
    notes: tuple[str, ...]


class Excerpts(Struct, frozen=True, forbid_unknown_fields=True):
    """One file: what kinds of teachers speak in it, and what they say."""

    about: str
    excerpt: tuple[Excerpt, ...]


class Drafted(Struct, frozen=True):
    """An excerpt with what was read of it."""

    excerpt: Excerpt
    got: tuple[str, ...]

    @property
    def right(self) -> bool:
        """Whether all notes are right, in order, struck together and begun as they should be."""
        return tuple(map(plain, self.excerpt.notes)) == self.got


def main() -> int:
    """Run from the command line. Returns the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.accuracy.excerpts", description=__doc__)
    parser.add_argument("names", nargs="*", metavar="NAME", help="only these files")
    parser.add_argument("--wrong", action="store_true", help="list those that are not right")
    parser.add_argument("--floors", action="store_true", help="record how many are right as floors")
    options = parser.parse_args()
    if unknown := sorted({*options.names} - {*names()}):
        parser.error(f"no excerpts named {', '.join(unknown)} in {FOLDER}")
    if options.floors and options.names:
        parser.error("--floors records all files of fixtures/excerpts: leave out NAME")
    found = {name: drafted(name) for name in options.names or names()}
    for name, all_drafted in found.items():
        print(f"{name:<16} {count(all_drafted)} of {len(all_drafted)} right")
        if options.wrong:
            print("\n".join(_told(one) for one in all_drafted if not one.right))
    if options.floors:
        rows = (f"{name} = {count(all_drafted)}\n" for name, all_drafted in found.items())
        FLOORS.write_text(HEAD + "".join(rows), encoding="utf-8")
    return 0


def names() -> list[str]:
    """The files of excerpts, by name."""
    return sorted(path.stem for path in FOLDER.glob("*.toml"))


def drafted(name: str) -> list[Drafted]:
    """The excerpts of one file, each drafted by itself."""
    found = convert(tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8")), Excerpts)
    return [Drafted(one, read(one.heard)) for one in found.excerpt]


def count(all_drafted: Sequence[Drafted]) -> int:
    """How many are right."""
    return sum(one.right for one in all_drafted)


def plain(event: str) -> str:
    """One event as it is compared: notes struck together by string, "pick" left out."""
    places, _, how = event.partition(" ")
    return " ".join(filter(None, ("+".join(sorted(places.split("+"))), how if how != "pick" else "")))


def read(heard: str) -> tuple[str, ...]:
    """The notes that are drafted from these words alone, as `plain` has them."""
    return tuple(map(written, played_order(lesson(heard))))


def lesson(heard: str) -> Lesson:
    """The draft of these words alone."""
    return draft(read_captions(f"[0:00] {heard}".encode(), "excerpt.txt"))


def written(event: Event) -> str:
    """One drafted event, as `plain` has it."""
    notes = as_notes(event)
    return plain("+".join(f"{note.string}/{note.fret}" for note in notes) + f" {_how(notes)}")


def _how(notes: Sequence[DraftNote]) -> str:
    """How the notes begin: as the one of them that is not picked, where one is bent to meet another."""
    return next((note.how for note in notes if note.how != "pick"), "pick")


def _told(one: Drafted) -> str:
    wanted = ", ".join(map(plain, one.excerpt.notes))
    return f"  {one.excerpt.heard}\n    wanted {wanted}\n    got    {', '.join(one.got)}"


if __name__ == "__main__":
    sys.exit(main())
