"""String names, as the grammar writes them, to string numbers of an instrument."""

from __future__ import annotations

from notesgen.music.chords import sounds_standard
from notesgen.music.pitch import midi, pitch_class
from notesgen.settle.step import Relation, Strings

SAME = Relation((0,))
SAME_PAIR = "same pair"  # how the grammar writes "the same two strings"
APPOSED = "="  # what joins the names of one string in a code, "A=#5"
RANGE = ".."  # between the first and the last of several strings side by side
MAYBE = "~"  # what stands before a name that may be something else, "A=~#5"
RELATIONS = {
    "same": SAME,
    "thicker": Relation((1,)),
    "thinner": Relation((-1,)),
    "below": Relation((1,), turns=True),
    "above": Relation((-1,), turns=True),
    "next": Relation((1, -1)),
}


def relation(code: str) -> Relation | None:
    """What a name such as "above" or "above 2" says of the string before; None for a name of its own."""
    word, _, number = code.partition(" ")
    found = RELATIONS.get(word)
    if found is None or not number:
        return found
    return Relation(tuple(way * int(number) for way in found.ways), found.turns) if number.isdigit() else None


class StringNames:
    """The names that the strings of one instrument answer to.

    `tuning` holds the open strings as notes are named on them, `usual` those by which teachers name strings,
    and `sounding` what is heard where all strings are lowered alike; string 1 first.
    """

    def __init__(
        self, tuning: tuple[str, ...], usual: tuple[str, ...], sounding: tuple[str, ...] = ()
    ) -> None:
        self.count = len(tuning)
        self.opens = tuple(midi(name) for name in tuning)
        self.stands_as_usual = sounds_standard(tuning)
        self._classes = [pitch_class(name[:-1]) for name in tuning]
        self._usual = (
            [pitch_class(name[:-1]) for name in usual] if len(usual) == len(tuning) else self._classes
        )
        self._sounding = [pitch_class(name[:-1]) for name in sounding]

    @property
    def classes(self) -> tuple[int, ...]:
        """The pitch classes of the open strings, string 1 first."""
        return tuple(self._classes)

    def pitch(self, string: int, fret: int) -> int:
        """The pitch of a note as a MIDI number."""
        return self.opens[string - 1] + fret

    def lowest_fret(self, letter: str, string: int) -> int:
        """The lowest fret (0 to 11) at which the string gives a note of that name."""
        return (pitch_class(letter) - self._classes[string - 1]) % 12

    def rise(self, string: int, fret: int, other: int, target: int) -> int:
        """Semitones (0 to 11) from a fret of the one string up to the next pitch named as the target's."""
        return (self._classes[other - 1] + target - self._classes[string - 1] - fret) % 12

    def is_letter(self, code: str) -> bool:
        """Whether the code is the name of a note."""
        try:
            pitch_class(code)
        except ValueError:
            return False
        return True

    def bear_one_name(self, one: tuple[int, int], other: tuple[int, int]) -> bool:
        """Whether two notes, each a string and its fret, have the same name."""
        named = [(self._classes[string - 1] + fret) % 12 for string, fret in (one, other)]
        return named[0] == named[1]

    def gives(self, letter: str, string: int, fret: int) -> bool:
        """Whether the string gives a note of that name at the fret."""
        return self.lowest_fret(letter, string) == fret % 12

    def resolve(self, code: str, last: Strings) -> tuple[Strings, ...]:
        """The strings that a name may mean, one tuple of candidates for each string that it names.

        `last` are the strings of the note before, for "next" and "same". Unknown names give no candidates.
        """
        if RANGE in code:
            return self._from_to(*code.split(RANGE))
        if "+" in code:
            parts = tuple(self._one(part.strip(), last) for part in code.split("+"))
            return parts if all(parts) else ()
        words = code.split()
        if len(words) == 2 and words[1].isdigit() and words[0] in ("top", "bottom"):
            return tuple((string,) for string in self._outer(words[0], int(words[1])))
        if code == SAME_PAIR:
            return tuple((string,) for string in last)
        one = self._one(code, last)
        return (one,) if one else ()

    def _from_to(self, first: str, last: str) -> tuple[Strings, ...]:
        """All strings from one to another; of two that bear a name, the one farther away is meant."""
        start, ends = self._one(first, ()), self._one(last, ())
        if not start or not ends:
            return ()
        one, other = max(((a, b) for a in start for b in ends), key=lambda pair: abs(pair[0] - pair[1]))
        step = 1 if other >= one else -1
        return tuple((string,) for string in range(one, other + step, step))

    def _outer(self, side: str, number: int) -> Strings:
        number = min(number, self.count)
        lowest = tuple(range(self.count, self.count - number, -1))
        return tuple(range(number, 0, -1)) if side == "top" else lowest

    def _one(self, code: str, last: Strings) -> Strings:
        if APPOSED in code:
            return self._told_twice(code.split(APPOSED), last)
        if code.lstrip("#").isdigit():
            number = int(code.lstrip("#"))
            return (number,) if 1 <= number <= self.count else ()
        if code.startswith("lowest"):
            return self._counted_from_low(code.removeprefix("lowest").strip() or "1")
        by = relation(code)
        if by is not None:
            return self._related(by, last)
        side, _, letter = code.rpartition(" ")
        found = self._by_letter(letter)
        if not found:
            return ()
        if side == "low":
            return found[-1:] if found[-1] > self.count // 2 + 1 else ()
        if side == "high":
            return found[:1] if found[0] <= 2 else ()
        if side == "middle":
            return found[len(found) // 2 : len(found) // 2 + 1] if len(found) > 2 else ()
        return found

    def _told_twice(self, names: list[str], last: Strings) -> Strings:
        """The string that several names have in common; where they differ, every one that may be meant.

        "Next" and the like, and a name that may be none, give way to the others.
        """
        sure = [name for name in names if not name.startswith(MAYBE) and relation(name) is None]
        found = [self._one(name.removeprefix(MAYBE), last) for name in names]
        shared = [one for one in found if one]
        common = tuple(string for string in (shared or [()])[0] if all(string in one for one in shared))
        if common:
            return common
        told = [one for one in (self._one(name, last) for name in sure) if one]
        told = told or [self._one(name, last) for name in names if not name.startswith(MAYBE)]
        return tuple(dict.fromkeys(string for one in told or shared[:1] for string in one))

    def _counted_from_low(self, number: str) -> Strings:
        """The string of that number from the thick side, where the thickest is the first."""
        string = self.count + 1 - int(number)
        return (string,) if 1 <= string <= self.count else ()

    def _related(self, by: Relation, last: Strings) -> Strings:
        ways = (*by.ways, *(-way for way in by.ways)) if by.turns else by.ways
        strings = tuple(last[-1] + way for way in ways) if last else ()
        return tuple(string for string in strings if 1 <= string <= self.count)

    def _by_letter(self, letter: str) -> Strings:
        """Strings of that letter, thinnest first: by their open notes, else by their usual names.

        Where all are lowered alike what sounds comes last: a guitar in C is still called E A D G B E.
        """
        if not self.is_letter(letter):
            return ()
        wanted = pitch_class(letter)
        usual, own, sounding = (
            tuple(at + 1 for at, have in enumerate(classes) if have == wanted)
            for classes in (self._usual, self._classes, self._sounding)
        )
        return tuple(sorted({*own, *(usual if not own or letter == "E" else ())})) or sounding
