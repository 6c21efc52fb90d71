"""What is known of one drafted event that bears on whether it is right: each clue a number from 0 to 1.

A run is what one sentence tells. Each struct also holds the weights of its clues, in log-odds: how much
they speak for the note being wrong.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import astuple


class OnString(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How the string is known: `said` with the fret, or `in_force` from before; `since` so many notes ago.

    `candidates` are other strings that fit, `close` how little the best of all wins by (1: not at all),
    `weakest` the closest call since a string was said, fading; `jump` tells of another string than the last
    one that nobody named; `named` is the share of the run with strings said, `many_named` tells of several
    strings in one run.
    """

    said: float = 0.0
    in_force: float = 0.0
    since: float = 0.0
    candidates: float = 0.0
    close: float = 0.0
    weakest: float = 0.0
    jump: float = 0.0
    named: float = 0.0
    many_named: float = 0.0


class Telling(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How the note was told.

    `size` counts the notes of the run, `slurred` is its share not picked, `alone` tells of a run of one,
    `article` of "the 7",
    `pointing` of "that 7", `doubt` is the reading's own. `derived` notes are worked out from others,
    `copied` ones from a whole passage. `spread` counts words a note.
    """

    size: float = 0.0
    slurred: float = 0.0
    alone: float = 0.0
    article: float = 0.0
    pointing: float = 0.0
    doubt: float = 0.0
    open: float = 0.0
    again: float = 0.0
    corrected: float = 0.0
    derived: float = 0.0
    copied: float = 0.0
    fingered: float = 0.0
    spread: float = 0.0


class Around(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What the sentence speaks of, by the grammar's lists of words, and how much of it no idiom reads.

    `moving_on` and `again` stand close by; `unread` is the share of the whole sentence, `odd_company` of
    the items next to the note.
    """

    acting: float = 0.0
    finger: float = 0.0
    hearing: float = 0.0
    negated: float = 0.0
    reason: float = 0.0
    supposing: float = 0.0
    listener: float = 0.0
    string: float = 0.0
    moving_on: float = 0.0
    again: float = 0.0
    unread: float = 0.0
    odd_company: float = 0.0


class Company(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The words right around the number, which tell a fret to be played from a number that is only said.

    `bare` tells of no string and no word "fret", `unread_behind` of a word right behind that no idiom reads
    ("two 18s"), `stated` of "the 5 is ...", `counting` of a number from one to four, `remarks` is the share
    of asides and frames around it, `far_from_playing` tells that no word of playing stands anywhere near,
    `opens` that it begins its sentence, `others` that the sentence speaks of somebody else.
    """

    bare: float = 0.0
    unread_behind: float = 0.0
    stated: float = 0.0
    counting: float = 0.0
    remarks: float = 0.0
    far_from_playing: float = 0.0
    opens: float = 0.0
    others: float = 0.0


class InTime(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Seconds to the notes before and after, and the smaller of the two; where in the lesson it stands.

    `crowd` counts the notes around it. `before_playing` tells that the talk stops behind the sentence.
    """

    gap_before: float = 0.0
    gap_after: float = 0.0
    isolated: float = 0.0
    crowd: float = 0.0
    before_playing: float = 0.0
    early: float = 0.0


class InMusic(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Whether the note lies `outside` the key unannounced, or `announced`; how far the hand leaps."""

    outside: float = 0.0
    announced: float = 0.0
    leap: float = 0.0
    leap_after: float = 0.0


class Tellings(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What other tellings say: a recap that has it alike; the same note `lately`, or as the last one.

    `pair` and `row` tell that two or three frets running, this one among them, were told before.
    `maybe_retold` is the probability that the sifting of recaps gives its run of adding no notes.
    """

    agreed: float = 0.0
    lately: float = 0.0
    echo: float = 0.0
    pair: float = 0.0
    row: float = 0.0
    maybe_retold: float = 0.0


class WholeTalk(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How well this teacher is understood: the share of numbers that no idiom reads, the mean of `close`."""

    unread_numbers: float = 0.0
    unsure_strings: float = 0.0


class Clues(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """All clues of one event, or their weights."""

    string: OnString = OnString()
    telling: Telling = Telling()
    around: Around = Around()
    company: Company = Company()
    time: InTime = InTime()
    music: InMusic = InMusic()
    tellings: Tellings = Tellings()
    talk: WholeTalk = WholeTalk()

    def values(self) -> Iterator[float]:
        """All clues in order, laid flat."""
        for group in astuple(self):
            yield from astuple(group)

    def named(self) -> Iterator[tuple[str, float]]:
        """All clues with their names: "string.said"."""
        for group in self.__struct_fields__:
            clues = getattr(self, group)
            for name in clues.__struct_fields__:
                yield f"{group}.{name}", getattr(clues, name)
