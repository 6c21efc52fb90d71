"""The same picking over another chord: the strokes of the one before, at the frets of the new one."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.placed import Grip
from notesgen.settle.hearing.row import read_row
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Voice
from notesgen.speech.instructions import Instruction

NEAR = 4  # sentences back to which the picking reaches that is told over
SPELLED = 3  # strings from which the picking is told again, and not only meant
CHORD_WITHIN = 6  # items behind "the same" within which the chord is named


def follows_pattern(telling: Telling, said: Instruction) -> bool:
    """Whether "the same" is of the picking: a chord for it comes, or has just been picked so."""
    last, coming = telling.last(), telling.coming
    if last is not None and last.stroke and last.copied and telling.near(said, 1):
        return True
    over = coming is not None and coming.kind == "grip" and coming.start - said.end <= CHORD_WITHIN
    return over and last is not None and last.stroke


def pick_over(telling: Telling, said: Instruction, before: Grip) -> None:
    """Writes out the picking of the chord before over the one named now, where "the same" is said."""
    sentence = telling.sentences.of(said.start)
    end = telling.sentences.end(min(sentence + 1, telling.sentences.of(len(telling.items) - 1)))
    pattern = [step for step in telling.steps if step.stroke and step.start >= before.at]
    around = telling.said_between(telling.sentences.start(sentence), end)
    if not before.frets or not pattern or not around & set(telling.words.sameness):
        return
    if sentence - pattern[-1].sentence > NEAR or _is_spelled(telling, said.end, end):
        return
    bass, root = max(before.frets), max(telling.grip.frets, default=0)
    for step in pattern:
        voices = [_moved(telling.grip, voice, bass, root) for voice in step.voices]
        telling.add(
            replace(said, slots=()),
            voices,
            origin="derived",
            stroke=True,
            copied=True,
            unsure_chord=telling.grip.name,
        )


def _is_spelled(telling: Telling, start: int, end: int) -> bool:
    """Whether the strings of the new chord are named one by one after all."""
    sentence = telling.sentences.end(telling.sentences.of(start)) if start < len(telling.items) else end
    spans = ((start, sentence), (sentence, end))
    return any(len(read_row(telling, begin, stop)) >= SPELLED for begin, stop in spans if begin < stop)


def _moved(grip: Grip, voice: Voice, bass: int, root: int) -> Voice:
    """The voice over the new chord: its bass for the bass of the one before, else the same string."""
    string = voice.named[0]
    string = root if string == bass or string > root else string
    return Voice(grip.frets.get(string, 0), (string,))
