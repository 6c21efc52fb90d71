"""A pair that slides: where to is told for both of its notes at once, or for one and then the other."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.by_distance import reached
from notesgen.settle.hearing.slots import named_at
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings, Voice
from notesgen.speech.instructions import Instruction


def awaits_slide(telling: Telling, said: Instruction) -> bool:
    """Whether a pair slides, and where to is still to be told, for both of its notes or for the second."""
    last = telling.last()
    apart = telling.sentences.of(said.start) - telling.sentences.of(telling.sliding_at)
    pair = last is not None and len(last.voices) == 2 and apart <= 1
    return pair and telling.sliding in (len(telling.steps), len(telling.steps) - 1)


def slides_on(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Tells where a pair slides to, one string and then the other."""
    if not awaits_slide(telling, said) or fret == "x":
        return False
    voices, first = telling.steps[-1].voices, telling.sliding == len(telling.steps)
    at = _voice_at(voices, strings or _named_since(telling, telling.sliding_at), 0 if first else 1)
    if at is None:
        return False
    if first:
        by = int(reached(telling, named_at(said), voices[at].fret, fret)) - int(voices[at].fret)
        moved = [replace(v, fret=max(0, int(v.fret) + by)) for v in voices]
        telling.add(said, moved, how="slide", origin="derived")
    else:
        mended = tuple(replace(v, fret=fret) if v == voices[at] else v for v in voices)
        telling.change_last(voices=mended, end=said.end)
        telling.sliding = -1
    return True


def _named_since(telling: Telling, at: int) -> tuple[Strings, ...]:
    """The strings named last on their own, since item `at`."""
    naming = telling.namings[-1] if telling.namings else None
    return naming.strings if naming and naming.at > at else ()


def _voice_at(voices: tuple[Voice, ...], strings: tuple[Strings, ...], usual: int) -> int | None:
    """The place of the voice spoken of: on the string named, else the usual one; None where neither."""
    if not strings:
        return usual
    fits = [at for at, voice in enumerate(voices) if len(strings) == 1 and set(voice.named) & set(strings[0])]
    return fits[0] if fits else None


def ends_slide(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether a pair that slides comes to rest here: "slide them down, so you're at seven on both"."""
    last = telling.last()
    if last is None or telling.sliding != len(telling.steps) or not awaits_slide(telling, said):
        return False
    held = tuple(voice.named for voice in last.voices)
    if (strings and set(strings) != set(held)) or len(frets) not in (1, len(held)):
        return False
    spread = frets * len(held) if len(frets) == 1 else frets
    ends = [Voice(fret, one) for fret, one in zip(spread, strings or held, strict=True)]
    telling.add(said, ends, how="slide")
    telling.sliding = -1
    return True
