"""How the strings are tuned: by a name, by all their letters, lowered alike, and string by string.

These add up: drop D with "the whole guitar down a half step", open G told by its three strings that move.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from notesgen.music.pitch import midi, name
from notesgen.music.tuning import Tuning, lowered, named, nearest, parse_tuning, standard
from notesgen.settle.strings import StringNames
from notesgen.speech.instructions import Instruction

FROM_HIGH = "high to low"  # the slot "order" of strings that are read out from the thin side
ALONE = "alone"  # the slot "label" of words that tell a tuning only before the first note
OWN = "own"  # the slot "label" of a standard tuning that is surely the lesson's
UP = "up"
AT = "@"  # between string and note, where several are told together

_TOGETHER = 120  # items within which two changes to the tuning are one
_DROP = 2  # semitones by which the low string goes down in every drop tuning


class Tuned(Struct, frozen=True):
    """The sounding strings, string 1 first; `alike` tells that a named tuning was lowered as a whole."""

    strings: Tuning
    alike: bool


class _Whole(Struct, frozen=True):
    """All strings as told at an item."""

    at: int
    strings: Tuning


class _Retuned(Struct, frozen=True):
    """A string by its name, with the note it gets, or by how many semitones it changes."""

    string: str
    note: str = ""
    by: int = 0


def said_tuning(said: tuple[Instruction, ...], instrument: str) -> Tuned | None:
    """What all words about the tuning come to; plain standard only when nothing else was said, or last."""
    usual = standard(instrument)
    first_note = next((one.start for one in said if one.kind == "note"), said[-1].end if said else 0)
    tunings = [one for one in said if one.kind == "tuning" and (not _is_alone(one) or one.start < first_note)]
    told = [_Whole(one.start, found) for one in tunings if (found := _whole(one, instrument))]
    strings = [part for one in tunings for part in _parts(one)]
    if not told and not strings:
        return None
    if tunings[-1].text("label") == OWN:
        return Tuned(usual, alike=False)
    down = next((one for one in reversed(told) if _down(one.strings, usual)), None)
    others = [one for one in told if _down(one.strings, usual) is None]
    base = _sounding(others) or down or _Whole(0, usual)
    lower = _down(down.strings, usual) or 0 if down else 0
    if down and base is not down and abs(down.at - base.at) > _TOGETHER:
        base, lower = max(base, down, key=lambda one: one.at), 0
    together = down is not None and base is not down and set(base.strings) & set(usual)
    if lower and together:
        base = _Whole(base.at, lowered(base.strings, lower))
    alike = bool(together) or any(_down(base.strings, one.strings) for one in others)
    return Tuned(_with(base.strings, lowered(usual, lower), strings, usual), alike)


def _sounding(told: list[_Whole]) -> _Whole | None:
    """The tuning told last; or the one that sounds, where another only gives its strings their names."""
    for one in told:
        for other in told:
            if far := _down(one.strings, other.strings):
                return _Whole(one.at, lowered(other.strings, far))
    return told[-1] if told else None


def _down(strings: Tuning, usual: Tuning) -> int | None:
    """By how many semitones all strings are lowered; None where they are not lowered alike."""
    if len(strings) != len(usual):
        return None
    apart = {midi(was) - midi(now) for now, was in zip(strings, usual, strict=True)}
    return apart.pop() if len(apart) == 1 and min(apart) >= 0 else None


def _is_alone(said: Instruction) -> bool:
    """Whether the words do not say of what they speak: "it wants to fall down a half step"."""
    return said.text("label") == ALONE


def _whole(said: Instruction, instrument: str) -> Tuning | None:
    letters = [str(letter) for letter in said.all("letters")]
    try:
        if letters:
            from_low = said.text("order") != FROM_HIGH
            return parse_tuning(" ".join(letters if from_low else reversed(letters)), instrument)
        return named(said.text("tuning") or "", instrument)
    except ValueError:
        return None


def _parts(said: Instruction) -> Iterator[_Retuned]:
    """The strings that one saying retunes, each with its note, or how far it goes."""
    string, far = said.text("string"), said.number("amount")
    if string and (note := said.text("to")):
        yield _Retuned(string, note=note)
    elif string and far is not None:
        yield _Retuned(string, by=int(far) if said.text("side") == UP else -int(far))
    for each in said.all("each"):
        string, _, note = str(each).partition(AT)
        yield _Retuned(string, note=note)


def _with(base: Tuning, plain: Tuning, retuned: list[_Retuned], usual: Tuning) -> Tuning:
    """The tuning with single strings changed; `plain` is what a distance is counted from."""
    names = StringNames(usual, usual)
    strings = list(base)
    for one in retuned:
        for string, *others in names.resolve(one.string, ()):
            now = None if others else _changed(one, plain[string - 1], usual[string - 1])
            strings[string - 1] = now or strings[string - 1]
    return tuple(strings)


def _changed(one: _Retuned, plain: str, usual: str) -> str | None:
    """The pitch of one string: so far up or down, or the note named, None where it is none.

    Where all strings are lowered, a drop to D may be named as if none were.
    """
    if not one.note:
        return name(midi(plain) + one.by, flats=one.by < 0)
    try:
        sounding, by_name = nearest(one.note, plain), nearest(one.note, usual)
    except ValueError:
        return None
    apart = midi(usual) - midi(plain)
    dropped = midi(usual) - midi(by_name) == _DROP and midi(plain) - midi(sounding) != _DROP
    return name(midi(by_name) - apart, flats=True) if apart and dropped else sounding
