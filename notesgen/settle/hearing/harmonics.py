"""Harmonics: one fret touched on one string after another, and stretches in which all notes are harmonics."""

from __future__ import annotations

from notesgen.settle.hearing.grips import fret_follows
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings, Voice
from notesgen.speech.instructions import Instruction

MOST_STRINGS_APART = 4  # items between one string of the list and the next, told by number


def harmonic(telling: Telling, said: Instruction) -> None:
    """A harmonic on one string, or on several at once; without a string, those named next."""
    strings = telling.strings_of(said)
    fret = said.whole("fret")
    if fret is None:
        telling.harmonics_from = telling.sentences.of(said.start)
        if telling.said_between(said.start - 1, said.end) & set(telling.words.nothing_else):
            telling.harmonics_in = len(telling.sections)
        return
    if strings or _is_string_named(telling):
        telling.add(said, [Voice(fret, one) for one in strings or ((),)], how="harmonic")
    telling.harmonic_fret, telling.harmonic_listed = fret, not strings


def _is_string_named(telling: Telling) -> bool:
    """Whether a string was named for it since the note before, and none is named next."""
    naming = telling.named_since()
    follows = telling.coming is not None and telling.coming.kind == "scope"
    return naming is not None and len(naming.strings) == 1 and not follows


def touch(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Strikes strings named while a list of harmonics goes on; False where none does."""
    fret = telling.harmonic_fret
    if fret is None or not strings or not (telling.harmonic_listed or not fret_follows(telling, said)):
        return False
    voices = [Voice(fret, candidates) for candidates in strings]
    at_once = telling.coming is not None and telling.coming.kind == "together"
    for chord in [voices] if at_once else [[voice] for voice in voices]:
        telling.add(said, chord, how="harmonic")
    return True


def goes_on(telling: Telling, said: Instruction) -> bool:
    """Takes a bare number in a list of harmonics: the fret for strings named next, or a string's number."""
    frets = frets_of(said, "fret")
    if said.kind != "note" or len(frets) != 1 or said.all("string") or frets[0] == "x":
        return False
    last, coming = telling.last(), telling.coming
    fret = int(frets[0])
    if telling.harmonic_fret is None:
        announced = telling.sentences.of(said.start) - telling.harmonics_from in (0, 1)
        listed = coming is not None and coming.kind == "scope" and not fret_follows(telling, coming)
        if not announced or not listed:
            return False
        telling.harmonic_fret, telling.harmonic_listed = fret, True
        return True
    near = last is not None and said.start - last.end <= MOST_STRINGS_APART and last.how == "harmonic"
    numbered = (
        near and last is not None and bool(telling.said_between(last.start, last.end) & telling.numbers)
    )
    if not numbered or not telling.harmonic_listed or not 1 <= fret <= telling.names.count:
        return False
    telling.add(said, [Voice(telling.harmonic_fret, (fret,))], how="harmonic")
    return True
