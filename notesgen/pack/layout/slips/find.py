"""The slips of a lesson.

A slip is settled where the teacher has answered a query otherwise than was said, or has mended the note by
hand. A query that is open may turn out to be one. What was put right in the talk needs no word beneath the
recording.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from notesgen.lesson.model import Flag, Lesson
from notesgen.pack.layout.slips.answered import of_number, slip
from notesgen.pack.layout.slips.said import Said, Slip, frets, pair, said


class Doubt(Struct, frozen=True):
    """An open query, and the sentences to paste, one for each choice that makes it a slip."""

    flag: Flag
    slips: tuple[Slip, ...]


def settled(lesson: Lesson) -> list[Slip]:
    """The slips that the teacher's answers tell of, in order, none twice."""
    words = said(lesson)
    found = [*_answers(lesson, words), *_by_hand(lesson, words)]
    once = {(one.number.start if one.number else one.sentence): one for one in reversed(found)}
    return sorted(once.values(), key=lambda one: one.start)


def doubtful(lesson: Lesson) -> list[Doubt]:
    """The open queries that may be slips, in order, none twice."""
    words = said(lesson)
    doubts: dict[tuple[float, str], Doubt] = {}
    for flag in lesson.flags:
        if flag.level == "query" and not flag.decided:
            made = tuple(one for option in flag.options if (one := slip(flag, option, words)))
            if made:
                doubts[flag.start, flag.message] = Doubt(flag, made)
    return list(doubts.values())


def put_right(lesson: Lesson) -> list[Flag]:
    """The slips that the teacher put right in the talk."""
    return [flag for flag in lesson.flags if flag.kind == "corrected"]


def _answers(lesson: Lesson, words: Said) -> Iterator[Slip]:
    for flag in lesson.flags:
        chosen = next((option for option in flag.options if option.label == flag.decided), None)
        found = slip(flag, chosen, words) if chosen else None
        if found:
            yield found


def _by_hand(lesson: Lesson, words: Said) -> Iterator[Slip]:
    """Notes that the teacher has put elsewhere than the number said of them."""
    for event in lesson.events:
        if event.origin == "decided" and event.to is None:
            found = pair(words.of([event.id]), frets(event.notes))
            if found:
                yield of_number(*found)
