"""One query for each passage that may be wrong: on which string, or played at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from math import prod

from msgspec.structs import replace

from notesgen.lesson.changes import left_out
from notesgen.lesson.model import Change, Event, Flag, Option
from notesgen.settle.doubts.passages import SHARE, Doubtful, Passage, is_slurred, passages
from notesgen.settle.doubts.reasons import reason
from notesgen.settle.doubts.wording import Wording, flag
from notesgen.settle.step import Strings
from notesgen.settle.trust.odds import Weights

MOST_STRINGS = 2  # other strings offered

Slurs = Mapping[int, list[Doubtful]]


def note_doubts(
    notes: Sequence[Doubtful], chance: float, weights: Weights, wording: Wording
) -> Iterator[Flag]:
    """A query for each passage that is wrong with at least this probability. `weights` tell why."""
    slurs = _slurs(notes)
    for passage in passages(notes, chance):
        if _only_outside(passage, chance, weights) or _of_named_chord(passage):
            continue  # the check of the key asks, and knows which frets are near; the chord is asked about
        if passage.by_string:
            yield _which_string(passage, chance, slurs, wording)
        else:
            yield _played(passage, chance, weights, slurs, wording)


def _only_outside(passage: Passage, chance: float, weights: Weights) -> bool:
    """Whether nothing speaks against the notes but that one or more are outside the key."""
    # by each note's own naming: what a slur comes from may be wrong as well
    named = all(max(note.clues.string.said, note.clues.string.in_force) for note in passage.notes)
    if not named or not any(note.clues.music.outside for note in passage.notes):
        return False
    inside = (replace(note.clues, music=replace(note.clues.music, outside=0.0)) for note in passage.notes)
    return 1 - prod(1 - weights.chance(clues) for clues in inside) < chance


def _of_named_chord(passage: Passage) -> bool:
    """Whether all its notes are those of a chord of which only the name was said: that is asked already."""
    return all(note.one.step.unsure_chord for note in passage.notes)


def _which_string(passage: Passage, chance: float, slurs: Slurs, wording: Wording) -> Flag:
    """On which string those notes are that have none of their own."""
    unsaid = _on_one_string(note for note in passage.notes if not note.string_said)
    taken, offered = wording.strings(unsaid[0].one.strings), _offered(unsaid)
    fitting = " or ".join(f"the {wording.strings(strings)}" for strings in offered)
    others = f"; {fitting} would fit too" if offered else ""
    drop = _drop(passage.notes) if passage.note >= chance * SHARE else ()
    return flag(
        "string-unsaid",
        "query",
        _events(passage.notes),
        f"No string was said for {_frets(unsaid)}. The draft takes the {taken}{others}.",
        (Option(f"on the {taken}"), *_moved(_whole(unsaid, slurs), offered, wording), *drop),
    )


def _played(passage: Passage, chance: float, weights: Weights, slurs: Slurs, wording: Wording) -> Flag:
    """Whether notes are played at all, or only spoken of; other strings are offered where these may be."""
    notes = passage.notes
    worst = max(notes, key=lambda note: note.doubt.note)
    unsaid = _on_one_string(note for note in notes if not note.string_said)
    strings = (
        _moved(_whole(unsaid, slurs), _offered(unsaid), wording) if passage.string >= chance * SHARE else ()
    )
    retold = any(note.clues.tellings.maybe_retold for note in notes)
    one_less = _one_less(worst) if len(notes) > 1 and not retold else ()
    return flag(
        "reference-unsure" if retold else "fret-unsure",
        "query",
        _events(notes),
        _told_over(notes) if retold else _why(notes, worst, reason(worst.clues, weights), wording),
        (Option("new notes" if retold else "as written"), *_drop(notes), *one_less, *strings),
    )


def _told_over(notes: Sequence[Doubtful]) -> str:
    return f"{_frets(notes)} may be new notes, or only spoken of or told over. The draft takes them as new."


def _why(notes: Sequence[Doubtful], worst: Doubtful, why: str, wording: Wording) -> str:
    told = wording.notes(worst.event)
    if len(notes) == 1:
        return f"This may be another note, or none: {why}. The draft has {told}."
    return f"Not all of {_frets(notes)} may be notes to play. Least sure is {told}: {why}."


def _on_one_string(notes: Iterable[Doubtful]) -> list[Doubtful]:
    """Those that share the strings of the one whose strings are most in doubt."""
    found = list(notes)
    worst = max(found, key=lambda note: note.doubt.string, default=None)
    return [note for note in found if worst and note.one.strings == worst.one.strings]


def _slurs(notes: Sequence[Doubtful]) -> Slurs:
    """For each note that is slurred to others, by its index, all notes of the slur, in order."""
    slurs: dict[int, list[Doubtful]] = {}
    for before, note in pairwise(notes):
        if note.index == before.index + 1 and is_slurred(before.one, note.one):
            slur = slurs.setdefault(before.index, [before])
            slur.append(note)
            slurs[note.index] = slur
    return slurs


def _whole(notes: Sequence[Doubtful], slurs: Slurs) -> list[Doubtful]:
    """The notes with those to which they are slurred: a slur has one string."""
    told = {one.index: one for note in notes for one in slurs.get(note.index, [note])}
    return [told[index] for index in sorted(told)]


def _offered(notes: Sequence[Doubtful]) -> tuple[Strings, ...]:
    return notes[0].one.others[:MOST_STRINGS] if notes else ()


def _moved(notes: Sequence[Doubtful], offered: Iterable[Strings], wording: Wording) -> tuple[Option, ...]:
    """The notes on each of the other strings that are offered."""
    return tuple(Option(f"on the {wording.strings(strings)}", _to(notes, strings)) for strings in offered)


def _to(notes: Sequence[Doubtful], strings: Strings) -> tuple[Change, ...]:
    return tuple(
        Change(event.id, notes=tuple(replace(n, string=s) for n, s in zip(event.notes, strings, strict=True)))
        for event in _events(notes)
        if len(event.notes) == len(strings)
    )


def _drop(notes: Sequence[Doubtful]) -> tuple[Option, ...]:
    return (Option("spoken of or told over", left_out(_events(notes))),)


def _one_less(worst: Doubtful) -> tuple[Option, ...]:
    return (Option(f"without the {_frets((worst,))}", left_out([worst.event])),)


def _events(notes: Iterable[Doubtful]) -> list[Event]:
    return [note.event for note in notes]


def _frets(notes: Iterable[Doubtful]) -> str:
    return ", ".join(str(note.fret) for one in notes for note in one.event.notes)
