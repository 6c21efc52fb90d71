"""Makes proofs of a lesson, and knows for each phrase when it last changed."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct
from msgspec.structs import replace

from notesgen.decisions.answered import BY_THE_WAY
from notesgen.decisions.order import by_weight
from notesgen.lesson.model import Event, Flag, Lesson
from notesgen.music.pitch import midi
from notesgen.pack.layout.facts import fact_lines
from notesgen.pack.layout.sheet import Passage, Sheet, all_queries, lay_out
from notesgen.pack.layout.strings import string_name
from notesgen.review.easel import Easel
from notesgen.review.proof import Piece, Proof, Slip, String, is_open

REST = "rest"
"""The piece of the events that no phrase holds."""


class _Page(Struct, frozen=True):
    """A lesson laid out, with its pieces by their ids, in order."""

    lesson: Lesson
    sheet: Sheet
    passages: dict[str, Passage]


class Proofs:
    """The proofs of one lesson, revision by revision."""

    def __init__(self) -> None:
        self._easel = Easel()
        self._page: _Page | None = None
        self._revision = -1
        self._changed: dict[str, int] = {}

    def note(self, lesson: Lesson, revision: int) -> None:
        """Takes in the lesson at a new revision."""
        page, before = _page(lesson), self._page
        for name, passage in page.passages.items():
            if before is None or _seen(passage, page) != _seen(before.passages.get(name), before):
                self._changed[name] = revision
        self._page, self._revision = page, revision

    def proof(self, lesson: Lesson, since: int, width: float) -> Proof:
        """The proof of the lesson that was noted last, with the pieces changed after `since`."""
        page = self._page or _page(lesson)
        pieces = tuple(
            self._piece(name, passage, page, width)
            for name, passage in page.passages.items()
            if self._changed.get(name, 0) > since
        )
        places = {event.id: name for name, passage in page.passages.items() for event in passage.events}
        return Proof(
            revision=self._revision,
            title=lesson.facts.title or lesson.source.captions,
            facts=tuple(fact_lines(lesson.facts)),
            strings=_strings(lesson),
            order=tuple(page.passages),
            pieces=pieces,
            slips=_slips(lesson, places),
        )

    def _piece(self, name: str, passage: Passage, page: _Page, width: float) -> Piece:
        return Piece(
            id=name,
            title=passage.title,
            start=passage.start,
            events=passage.events,
            pictures=self._easel.pictures(name, passage, page.sheet, width),
        )


def _page(lesson: Lesson) -> _Page:
    """The lesson laid out. Open queries are marked by a number that stays theirs, whatever is answered."""
    bare = lay_out(lesson, flagged=False)
    asked: dict[str, tuple[int, ...]] = {}
    for number, flag in enumerate(all_queries(lesson), start=1):
        for event in flag.events if is_open(flag) else ():
            asked[event] = (*asked.get(event, ()), number)
    names = [*(phrase.id for phrase in lesson.phrases), REST]
    return _Page(lesson, replace(bare, asked=asked), dict(zip(names, bare.passages, strict=False)))


def _seen(passage: Passage | None, page: _Page) -> tuple[object, ...]:
    """All that is shown of a piece."""
    if passage is None:
        return ()
    marks = [
        (e.id in page.sheet.opening, page.sheet.closing.get(e.id), page.sheet.asked.get(e.id))
        for e in passage.events
    ]
    return passage, marks


def _strings(lesson: Lesson) -> tuple[String, ...]:
    tuning = lesson.facts.tuning
    return tuple(String(string_name(tuning, n), midi(pitch)) for n, pitch in enumerate(tuning, start=1))


def _slips(lesson: Lesson, places: Mapping[str, str]) -> tuple[Slip, ...]:
    """All queries: the open ones, what most hangs on first, then those that are answered."""
    numbers = {flag.id: number for number, flag in enumerate(all_queries(lesson), start=1)}
    answered = (flag for flag in all_queries(lesson) if not is_open(flag))
    ordered = (*by_weight(lesson), *answered)
    return tuple(_slip(numbers[flag.id], flag, lesson, places) for flag in ordered)


def _slip(number: int, flag: Flag, lesson: Lesson, places: Mapping[str, str]) -> Slip:
    return Slip(
        id=flag.id,
        number=number,
        kind=flag.kind,
        piece=_piece_of(flag, lesson, places),
        start=flag.start,
        end=flag.end,
        events=flag.events,
        message=flag.message,
        options=tuple(option.label for option in flag.options),
        answer=flag.decided or "",
        by_the_way=flag.decided == BY_THE_WAY,
    )


def _piece_of(flag: Flag, lesson: Lesson, places: Mapping[str, str]) -> str:
    """The piece that holds a note of the flag, else the last one begun before it, else none."""
    held = next((places[event] for event in flag.events if event in places), "")
    begun = [phrase.id for phrase in lesson.phrases if phrase.start <= flag.start]
    return held or (begun[-1] if begun else "")


def events_of(lesson: Lesson, phrase: str) -> tuple[Event, ...]:
    """The events of one piece."""
    known = {one.id for one in lesson.phrases}
    return tuple(e for e in lesson.events if e.phrase == phrase or (phrase == REST and e.phrase not in known))
