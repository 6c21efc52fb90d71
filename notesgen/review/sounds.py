"""What a phrase sounds like, or an answer."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import Event, Lesson, Phrase
from notesgen.pack.layout.sounding.phrases import sounds
from notesgen.pack.layout.sounding.tone import Sound
from notesgen.review.deciding import query_of
from notesgen.review.desk import Desk
from notesgen.review.previews import previews
from notesgen.review.proofs import events_of


class Wanted(Struct, frozen=True):
    """A phrase, or an option (from 0) of a query, as the lesson was at a revision."""

    revision: int
    phrase: str
    query: str
    option: int


def sound(desk: Desk, wanted: Wanted) -> Sound | None:
    """The tones; None where nothing sounds. Raises InputError for a query that is gone."""
    lesson = desk.at(wanted.revision)
    if wanted.phrase:
        return _sounding(lesson, events_of(lesson, wanted.phrase))
    passages = previews(lesson, query_of(lesson, wanted.query))
    if not 0 <= wanted.option < len(passages):
        return None
    return _sounding(lesson, passages[wanted.option].events)


def _sounding(lesson: Lesson, events: Sequence[Event]) -> Sound | None:
    """The events as the only phrase of the lesson."""
    phrase = Phrase("heard", "", 0.0, 0.0, tuple(event.id for event in events))
    alone = replace(lesson, phrases=(phrase,), events=tuple(events), repeats=())
    return next(iter(sounds(alone)), None)
