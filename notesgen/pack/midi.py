"""The lesson to listen to, as a Standard MIDI File 1.0 (format 1).

The first track has the tempo and the texts. Each string then has a track and a channel of its own, so that a
bend moves no other string. Registered parameter 0 (pitch bend sensitivity) says how far it reaches.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from io import BytesIO
from math import ceil
from typing import Any

from msgspec.structs import replace

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.sounding.caveats import caveats
from notesgen.pack.layout.sounding.phrases import sounds, tempo
from notesgen.pack.layout.sounding.tone import Sound, Tone
from notesgen.pack.layout.sounding.wires import RANGE, TICKS, Act, acts, ticks
from notesgen.pack.layout.strings import string_name
from notesgen.pack.layout.style import PLAIN, Style, is_unsettled

FILE = "lesson.mid"
GAP = 2
"""Beats of silence between phrases."""
CHANNELS = tuple(channel for channel in range(16) if channel != 9)
"""Counted from 0. General MIDI keeps channel 10 for drums."""
PROGRAMS = {"bass": 33, "5-string bass": 33, "ukulele": 24}
"""General MIDI Level 1, counted from 0: a fingered electric bass, a guitar with nylon strings ..."""
STEEL_STRINGS = 25

Message = Any
"""A message or meta message of mido, which has no types."""


def render(lesson: Lesson, style: Style = PLAIN) -> bytes | None:
    """The file's bytes; None where nothing has a pitch."""
    from mido import MidiFile  # not at the top: the other formats of the pack can do without it

    placed = _one_after_another(sounds(lesson))
    if not placed:
        return None
    file = MidiFile(type=1, ticks_per_beat=TICKS, charset="utf-8")
    file.tracks.append(_track(_texts(lesson, placed)))
    strings = {tone.string for _, sound in placed for tone in sound.tones}
    for string in sorted(strings):
        tones = [tone for _, sound in placed for tone in sound.tones if tone.string == string]
        file.tracks.append(_track(_string(lesson, string, tones)))
    data = BytesIO()
    file.save(file=data)
    return data.getvalue()


def _one_after_another(made: Iterable[Sound]) -> list[tuple[int, Sound]]:
    """The phrases with the beats on which they begin; their tones' beats count from the file's start."""
    placed: list[tuple[int, Sound]] = []
    start = 0
    for sound in made:
        tones = tuple(replace(tone, beat=tone.beat + start) for tone in sound.tones)
        placed.append((start, replace(sound, tones=tones)))
        start = ceil(max(start + sound.beats, *(tone.end for tone in tones))) + GAP
    return placed


def _texts(lesson: Lesson, placed: Sequence[tuple[int, Sound]]) -> Iterator[tuple[int, Message]]:
    """Tempo, title, what is known of the rhythm, and a marker where each phrase begins."""
    from mido import MetaMessage, bpm2tempo

    yield 0, MetaMessage("track_name", name=_line(lesson.facts.title) or "Guitar lesson")
    yield 0, MetaMessage("set_tempo", tempo=bpm2tempo(tempo(lesson)))
    for text in _remarks(lesson, placed):
        yield 0, MetaMessage("text", text=text)
    for start, sound in placed:
        yield ticks(start), MetaMessage("marker", text=_line(sound.title) or "Further notes")


def _remarks(lesson: Lesson, placed: Sequence[tuple[int, Sound]]) -> Iterator[str]:
    if is_unsettled(lesson):
        yield "Draft: some questions about this lesson are still open."
    yield from caveats(lesson, [sound for _, sound in placed])


def _string(lesson: Lesson, string: int, tones: Sequence[Tone]) -> Iterator[tuple[int, Message]]:
    """The track of a string: its name and sound, the reach of the wheel, then all that it plays."""
    from mido import Message, MetaMessage

    channel = CHANNELS[(string - 1) % len(CHANNELS)]
    program = PROGRAMS.get(lesson.facts.instrument, STEEL_STRINGS)
    yield 0, MetaMessage("track_name", name=_line(string_name(lesson.facts.tuning, string)))
    yield 0, Message("program_change", channel=channel, program=program)
    # Parameter 0 is chosen, set in semitones and cents, and let go of, lest a stray value change it.
    for control, value in ((101, 0), (100, 0), (6, RANGE), (38, 0), (101, 127), (100, 127)):
        yield 0, Message("control_change", channel=channel, control=control, value=value)
    for act in acts(tones):
        yield act.tick, _message(act, channel)


def _message(act: Act, channel: int) -> Message:
    from mido import Message

    if act.kind == "wheel":
        return Message("pitchwheel", channel=channel, pitch=act.value)
    kind = "note_on" if act.kind == "on" else "note_off"
    return Message(kind, channel=channel, note=act.value, velocity=act.velocity)


def _track(timed: Iterable[tuple[int, Message]]) -> Message:
    """The messages, each with the ticks since the one before it."""
    from mido import MetaMessage, MidiTrack

    track, at = MidiTrack(), 0
    for tick, message in timed:
        track.append(message.copy(time=tick - at))
        at = tick
    track.append(MetaMessage("end_of_track"))
    return track


def _line(text: str) -> str:
    return " ".join(text.split())
