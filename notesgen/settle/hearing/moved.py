"""A passage told over: on another string, some frets or an octave away, backwards, with another end.

Pure functions from steps to steps. Some give None where the passage cannot be moved so: off the neck, or
with a string that nobody named.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.lesson.model import Fret, How
from notesgen.settle.step import Step, Strings, Voice
from notesgen.settle.strings import SAME

HIGHEST = 24  # fret up to which an octave is looked for; common practice, no source
TURNED: dict[How, How] = {"hammer-on": "pull-off", "pull-off": "hammer-on", "slide": "slide"}

Run = Sequence[Step]


def settled(run: Run) -> list[Step]:
    """The passage with the string in force on each note that has none of its own, or that closes its list."""
    placed: list[Step] = []
    held: Strings = ()
    for step in run:
        named = tuple(voice.named or step.before or held for voice in step.voices)
        held = named[-1] if len(named) == 1 else ()
        voices = tuple(replace(v, named=one) for v, one in zip(step.voices, named, strict=True))
        placed.append(replace(step, voices=voices))
    for at in range(len(placed) - 2, -1, -1):
        step, after = placed[at], placed[at + 1]
        listed = (
            after.closes and step.sentence == after.sentence and len(step.voices) == len(after.voices) == 1
        )
        if listed and not step.voices[0].named:
            placed[at] = replace(
                step, voices=(replace(step.voices[0], named=after.voices[0].named),), closes=True
            )
    return placed


def on_string(run: Run, strings: Strings) -> list[Step]:
    """The same frets on one other string; nothing where the passage has notes struck together."""
    if any(len(step.voices) != 1 for step in run):
        return []
    return [replace(step, voices=(replace(step.voices[0], named=strings),), by=None) for step in run]


def on_one(run: Run) -> list[Step]:
    """The passage all on the string of its first note, whichever that is."""
    return [replace(step, by=SAME if at else None) for at, step in enumerate(run)]


def by_frets(run: Run, by: int) -> list[Step] | None:
    """Every fret so far up the same strings; dead notes stay dead."""
    moved = [replace(step, voices=tuple(_raised(voice, by) for voice in step.voices)) for step in run]
    low = any(voice.fret != "x" and int(voice.fret) < 0 for step in moved for voice in step.voices)
    return None if low else moved


def octaves(run: Run, by: int, opens: Sequence[int]) -> list[list[Step]]:
    """The passage `by` semitones away, wherever it lies on the neck; the nearest to the hand first.

    `opens` are the open strings' MIDI note numbers, string 1 first.
    """
    if any(len(voice.named) != 1 for step in run for voice in step.voices):
        return []
    found = [_shifted(run, over, by, opens) for over in range(-len(opens) + 1, len(opens))]
    placed = [steps for steps in found if steps is not None]
    return sorted(placed, key=lambda steps: _travel(run, steps))


def backwards(run: Run) -> list[Step]:
    """The passage from its end to its start: what was hammered on is pulled off, and the other way round.

    How its notes were first played was asked about there: a copy that turns round asks no more.
    """
    turned: list[How] = ["pick", *(TURNED.get(step.how, "pick") for step in reversed(run[1:]))]
    return [
        replace(step, how=how, bend=None, unsure_how=(), amount_unsaid=False)
        for step, how in zip(reversed(run), turned, strict=True)
    ]


def ending_on(run: Run, fret: int, string: Strings = ()) -> list[Step] | None:
    """The passage with another fret at its end, on another string where one is told."""
    last = run[-1]
    if len(last.voices) != 1:
        return None
    end = replace(last.voices[0], fret=fret, named=string or last.voices[0].named)
    return [*run[:-1], replace(last, voices=(end,))]


def _raised(voice: Voice, by: int) -> Voice:
    return voice if voice.fret == "x" else replace(voice, fret=int(voice.fret) + by)


def _shifted(run: Run, over: int, by: int, opens: Sequence[int]) -> list[Step] | None:
    """The passage `over` strings thicker at the pitch `by` semitones away; None where it leaves the neck."""
    steps = []
    for step in run:
        voices = [_elsewhere(voice, over, by, opens) for voice in step.voices]
        if any(voice is None for voice in voices):
            return None
        steps.append(replace(step, voices=tuple(voice for voice in voices if voice is not None)))
    return steps


def _elsewhere(voice: Voice, over: int, by: int, opens: Sequence[int]) -> Voice | None:
    string = voice.named[0] + over
    if not 1 <= string <= len(opens):
        return None
    fret: Fret = "x"
    if voice.fret != "x":
        fret = int(voice.fret) + opens[voice.named[0] - 1] + by - opens[string - 1]
        if not 0 <= fret <= HIGHEST:
            return None
    return Voice(fret, (string,), voice.how, voice.bend)


def _travel(run: Run, steps: Run) -> int:
    """How far the hand moves from the passage to its copy, in frets, all notes summed."""
    pairs = zip(_frets(run), _frets(steps), strict=True)
    return sum(abs(one - two) for one, two in pairs)


def _frets(run: Run) -> list[int]:
    return [int(voice.fret) for step in run for voice in step.voices if voice.fret != "x"]
