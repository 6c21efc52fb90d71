"""The key that the notes are probably in, where nobody said it.

What was said, or given, is never overruled: `Facts.key` stays None, as the format has it for a key that was
never declared. The guess stands in `Facts.changes` as "likely key", and the origin of the key is "inferred".
"""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.lesson.evidence import LikelyKey
from notesgen.lesson.model import Event, Key, Phrase
from notesgen.music.fretboard import Fretboard
from notesgen.music.key_finding import likely_keys

FACT = "likely key"
_LEAST_NOTES = 16
_LEAST_SURE = 0.5


def likely_key(events: tuple[Event, ...], phrases: tuple[Phrase, ...], neck: Fretboard) -> LikelyKey | None:
    """The likeliest key; None where there are too few notes, or no key is likelier than all others together.

    Pitches are by shape, as keys are named. A bend counts where it goes.
    """
    notes = [pitch for event in events for pitch in _pitches(event, neck)]
    by_id = {event.id: event for event in events}
    closing = [by_id[phrase.events[-1]] for phrase in phrases if phrase.events]
    endings = [pitch for event in closing for pitch in _pitches(event, neck)]
    if len(notes) < _LEAST_NOTES:
        return None
    best = likely_keys(notes, endings)[0]
    if best.probability < _LEAST_SURE:
        return None
    return LikelyKey(Key(best.tonic, best.mode), best.probability, best.inside, len(notes))


def _pitches(event: Event, neck: Fretboard) -> Iterator[int]:
    for note in event.notes:
        if note.fret != "x" and neck.has(note.string, note.fret):
            bend = event.bend if note.bend is None else note.bend
            rise = 0 if event.how == "release" else round(bend or 0)
            yield neck.pitch(note.string, note.fret) - neck.capo + rise
