"""A lesson as it sounds, phrase by phrase."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from notesgen.lesson.model import Event, Lesson
from notesgen.pack.layout.sounding.beats import steps
from notesgen.pack.layout.sounding.pitches import open_strings
from notesgen.pack.layout.sounding.struck import in_order, struck
from notesgen.pack.layout.sounding.tone import Sound
from notesgen.pack.layout.sounding.tones import tones

DEFAULT_TEMPO = 80.0
"""Beats a minute where the lesson names no tempo: slow enough to play along. Common practice, no source."""
SLOWEST, FASTEST = 20.0, 400.0
REST = "rest"
"""Stands in for the id of a phrase where events belong to none."""


def sounds(lesson: Lesson) -> list[Sound]:
    """The phrases that have a note with a pitch, in order; events that no phrase holds come last."""
    opened, beats_a_minute = open_strings(lesson.facts), tempo(lesson)
    made: list[Sound] = []
    for name, title, events in _phrases(lesson):
        played = in_order(events, lesson.repeats)
        sounding = tones(struck(played, opened), beats_a_minute)
        if sounding:
            even = not all(step.known for step in steps(events))
            beats = ceil(round(played[-1].until, 6))
            made.append(Sound(name, title, beats_a_minute, beats, even, tuple(sounding)))
    return made


def tempo(lesson: Lesson) -> float:
    """Beats a minute: as declared, kept within what can be played."""
    return min(max(lesson.facts.tempo or DEFAULT_TEMPO, SLOWEST), FASTEST)


def _phrases(lesson: Lesson) -> Iterator[tuple[str, str, list[Event]]]:
    """(id, title, events that have notes)."""
    by_id = {event.id: event for event in lesson.events if event.notes}
    for phrase in lesson.phrases:
        yield phrase.id, phrase.title, [by_id[name] for name in phrase.events if name in by_id]
    held = {name for phrase in lesson.phrases for name in phrase.events}
    yield REST, "", [event for event in by_id.values() if event.id not in held]
