"""Plain wordings with right answers by combination: whether the plain things are read however they are put.

Each wording of fixtures/wordings is said with frets, strings and the words around them drawn from lists,
with punctuation and without. The draws are the same on every run.

python -m tests.accuracy.wordings            how many are right, a row a move
python -m tests.accuracy.wordings --wrong    ... and which wordings fail how often, with an example each
python -m tests.accuracy.wordings --floors   record how many are right as floors
"""

from __future__ import annotations

import argparse
import itertools
import random
import re
import sys
import tomllib
from collections.abc import Collection, Iterable, Iterator, Sequence
from pathlib import Path
from typing import TypeVar

from msgspec import Struct, convert

from notesgen.lesson.model import Event, Lesson
from notesgen.music import pitch
from notesgen.music.fretboard import Fretboard
from notesgen.music.tuning import standard
from tests.accuracy import excerpts
from tests.accuracy.draft import played_order
from tests.accuracy.workers import each

FOLDER = Path(__file__).parents[2] / "fixtures" / "wordings"
FLOORS = Path(__file__).with_name("wordings.toml")
HEAD = "# How many are right. Written by `python -m tests.accuracy.wordings --floors`; reviewed like code.\n"
TIMES = 1  # talks made of each wording
HIGHEST = 12  # fret that the lowest note of a phrase may have
STEPS = (1, 2, 2, 3)  # frets from one note of a phrase to the next
FRAMED = "framed"
FILES = (
    FRAMED,
    *("whole", "references", "counts", "namings", "retold", "techniques", "shapes", "joined", "spoken"),
    "parts",
)
SHIFTS = (2, 3, 12)  # "a2" is the fret two above "a"
NECK = Fretboard(standard("guitar"))

File = TypeVar("File")


class Move(Struct, frozen=True, forbid_unknown_fields=True):
    """One thing to be played, its notes as "fret how" or "string/fret+string/fret how", and how to say it."""

    name: str
    notes: tuple[str, ...]
    say: tuple[str, ...]
    strings: tuple[int, ...] = ()  # that {s} may be, where not all of them serve
    alone: bool = False  # with no note before it, as it would be doubtful what is copied


class Moves(Struct, frozen=True, forbid_unknown_fields=True):
    """The moves of one file."""

    move: tuple[Move, ...]


class Ways(Struct, frozen=True, forbid_unknown_fields=True):
    """How strings and frets are said, and what stands around the wordings; see ways.toml."""

    before: tuple[str, ...]
    after: tuple[str, ...]
    lead: tuple[str, ...]
    first: tuple[str, ...]
    close: tuple[str, ...]
    strings: tuple[tuple[str, ...], ...]
    words: tuple[str, ...]
    ordinals: tuple[str, ...]
    numerals: tuple[str, ...]
    frets: tuple[str, ...]


class Talk(Struct, frozen=True):
    """What is said, by which wording of which move, and the notes that it tells."""

    move: str
    wording: str
    heard: str
    notes: tuple[str, ...]


class Speaker:
    """Draws the words of one talk."""

    def __init__(self, ways: Ways, seed: str) -> None:
        self.ways = ways
        self.draw = random.Random(seed)
        self.manner = self.draw.choice(ways.frets)
        self.bare = self.draw.random() < 1 / 3

    def fret(self, fret: int) -> str:
        """A fret as this speaker says frets."""
        said = self.manner if fret else "{w}"
        ways = self.ways
        return said.format(d=fret, w=ways.words[fret], o=ways.ordinals[fret], n=ways.numerals[fret])

    def number(self, fret: int) -> str:
        """The number alone, in words where this speaker says frets in words."""
        return self.ways.words[fret] if re.search("{[wo]}", self.manner) else str(fret)

    def string(self, string: int) -> str:
        """A name of a string; never a bare letter where all letters are small."""
        names = self.ways.strings[string - 1]
        return self.draw.choice([name for name in names if len(name) > 1 or not self.bare])

    def talk(self, move: Move, wording: str, framed: bool) -> Talk:
        """The wording put into a short talk, and the notes told by all of it."""
        low = self.draw.choice(move.strings or (range(2, 7) if framed else range(3, 7)))
        strings = {"s": low - 1 if framed else low, "t": low - 1}
        if any("u/" in note for note in move.notes):
            strings["u"] = low - 2
        frets = self._frets()
        said = wording.format(
            **{name: self.fret(fret) for name, fret in frets.items() if f"{{{name}}}" in wording},
            **{
                name.upper(): self.number(fret)
                for name, fret in frets.items()
                if f"{{{name.upper()}}}" in wording
            },
            **{name: self.string(string) for name, string in strings.items()},
            **{
                f"{name}/{fret}": _letter(string, frets[fret])
                for (name, string), fret in itertools.product(strings.items(), frets)
                if f"{{{name}/{fret}}}" in wording
            },
        )
        named_first = not framed
        if framed:
            named_first = self.draw.random() < 1 / 2
            frame = self.draw.choice(self.ways.before if named_first else self.ways.after)
            said = frame.format(s=self.string(strings["s"]), m=said)
        said = _tidied(self.draw.choice(self.ways.lead) + said)
        opening, notes = self._opening(strings["s"]) if named_first and not move.alone else ("", ())
        heard = f"{opening}{said[0].upper()}{said[1:]}.{self.draw.choice(self.ways.close)}"
        notes += tuple(_note(note, strings, frets) for note in move.notes)
        return Talk(move.name, wording, self._captioned(heard), notes)

    def _frets(self) -> dict[str, int]:
        """The frets by their names; "d" lies above "c" as "b" above "a"."""
        low = self.draw.randint(1, HIGHEST)
        middle = low + self.draw.choice(STEPS)
        high = middle + self.draw.choice(STEPS)
        frets = {"a": low, "b": middle, "c": high, "d": high + middle - low}
        shifted = {f"{name}{by}": fret + by for name, fret in frets.items() for by in SHIFTS}
        return frets | shifted

    def _opening(self, taken: int) -> tuple[str, tuple[str, ...]]:
        """Nothing, or one note on another string before."""
        if self.draw.random() < 1 / 2:
            return "", ()
        string = self.draw.choice([one for one in range(1, 7) if one != taken])
        fret = self.draw.randint(1, HIGHEST)
        first = self.draw.choice(self.ways.first).format(f=self.fret(fret), s=self.string(string))
        return f"{_tidied(first[0].upper() + first[1:])} ", (f"{string}/{fret}",)

    def _captioned(self, heard: str) -> str:
        return re.sub(r"[.,:;?]", "", heard).lower() if self.bare else heard


class Told(Struct, frozen=True):
    """A talk with what was read of it."""

    talk: Talk
    got: tuple[str, ...]

    @property
    def right(self) -> bool:
        """Whether all notes are right and in order."""
        return tuple(map(excerpts.plain, self.talk.notes)) == self.got


def main() -> int:
    """Run from the command line. Returns the exit status."""
    parser = argparse.ArgumentParser(prog="python -m tests.accuracy.wordings", description=__doc__)
    parser.add_argument("names", nargs="*", metavar="MOVE", help="only these moves")
    parser.add_argument("--wrong", action="store_true", help="list the wordings that fail")
    parser.add_argument("--floors", action="store_true", help="record how many are right as floors")
    options = parser.parse_args()
    if unknown := sorted({*options.names} - {*moves()}):
        parser.error(f"no moves named {', '.join(unknown)} in {FOLDER}")
    if options.floors and options.names:
        parser.error("--floors records all moves of fixtures/wordings: leave out MOVE")
    told = each(drafted, talks(options.names or moves()))
    for move, of_move in _by_move(told):
        print(f"{move:<32} {count(of_move)} of {len(of_move)} right")
        if options.wrong:
            print("".join(_failing(of_move)), end="")
    print(f"{'all':<32} {count(told)} of {len(told)} right")
    if options.floors:
        rows = (f'"{move}" = {count(of_move)}\n' for move, of_move in _by_move(told))
        FLOORS.write_text(HEAD + "".join(rows), encoding="utf-8")
    return 0


def moves() -> list[str]:
    """The moves of all files, by name."""
    return [move.name for file in FILES for move in _read(file, Moves).move]


def talks(names: Collection[str]) -> Iterator[Talk]:
    """The talks of the moves with these names, wording by wording."""
    ways = _read("ways", Ways)
    for file in FILES:
        for move in _read(file, Moves).move:
            if move.name not in names:
                continue
            for wording, time in itertools.product(move.say, range(TIMES)):
                yield Speaker(ways, f"{move.name} {wording} {time}").talk(move, wording, file == FRAMED)


def drafted(talk: Talk) -> Told:
    """The talk as it is read, with what is repeated written out."""
    lesson = excerpts.lesson(talk.heard)
    return Told(talk, tuple(map(excerpts.written, _sounding(lesson, played_order(lesson)))))


def count(told: Iterable[Told]) -> int:
    """How many are right."""
    return sum(one.right for one in told)


def _sounding(lesson: Lesson, events: list[Event]) -> list[Event]:
    """The events with each repeat written out; later ones first, so that those before keep their places."""
    ids = [event.id for event in events]
    for repeat in reversed(lesson.repeats):
        first, end = ids.index(repeat.first), ids.index(repeat.last) + 1
        events = events[:end] + events[first:end] * (repeat.times - 1) + events[end:]
    return events


def _by_move(told: Sequence[Told]) -> Iterator[tuple[str, list[Told]]]:
    for move, of_move in itertools.groupby(told, key=lambda one: one.talk.move):
        yield move, list(of_move)


def _failing(told: Sequence[Told]) -> Iterator[str]:
    for wording, said in itertools.groupby(told, key=lambda one: one.talk.wording):
        all_said = list(said)
        wrong = [one for one in all_said if not one.right]
        if wrong:
            wanted, got = ", ".join(wrong[0].talk.notes), ", ".join(wrong[0].got)
            yield f"  {len(wrong)} of {len(all_said)}  {wording}\n"
            yield f"      {wrong[0].talk.heard}\n      wanted {wanted}\n      got    {got}\n"


def _tidied(said: str) -> str:
    """The words without a second article: "the the fifth", "on the string two"."""
    return re.sub(r"\b(?:the|your) (the|string (?:one|two|three|four|five|six|number))\b", r"\1", said)


def _letter(string: int, fret: int) -> str:
    """The letter of a place on the neck, as it is said: "F sharp"."""
    sounding = NECK.pitch(string, fret)
    return pitch.name(sounding).rstrip("0123456789").replace("#", " sharp")


def _note(note: str, strings: dict[str, int], frets: dict[str, int]) -> str:
    places, _, how = note.partition(" ")
    told = "+".join(_place(place, strings, frets) for place in places.split("+"))
    return f"{told} {how}".rstrip()


def _place(place: str, strings: dict[str, int], frets: dict[str, int]) -> str:
    """A place of a move with its names filled in; what stands there as a number stays."""
    string, _, fret = place.rpartition("/")
    return f"{strings.get(string or 's', string)}/{frets.get(fret, fret)}"


def _read(name: str, kind: type[File]) -> File:
    return convert(tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8")), kind)


if __name__ == "__main__":
    sys.exit(main())
