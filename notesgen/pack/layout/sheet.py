"""A lesson laid out for reading: passages in order, each with its events, questions and remarks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct

from notesgen.lesson.model import Event, Flag, Lesson
from notesgen.pack.layout.strings import string_labels
from notesgen.pack.layout.titles import titles


class Question(Struct, frozen=True):
    """A query that is still open, and the number that it has through the whole lesson. Numbers count answered
    queries too: an answer moves none of them."""

    number: int
    flag: Flag


class Passage(Struct, frozen=True):
    """One phrase as it is written out. Times in seconds; `demos` are (start, end)."""

    title: str
    start: float
    events: tuple[Event, ...]
    demos: tuple[tuple[float, float], ...]
    questions: tuple[Question, ...]
    remarks: tuple[Flag, ...]


class Sheet(Struct, frozen=True):
    """The whole lesson. `questions` and `remarks` here are those that come before the first passage.
    `labels` name the strings beside a tab, string 1 first, one for each string of the tuning or the notes.

    `asked` gives the footnote numbers of an event, `opening` the events that begin a repeat, `closing` how
    often the passage that ends on an event is played in all.
    """

    labels: tuple[str, ...]
    passages: tuple[Passage, ...]
    questions: tuple[Question, ...]
    remarks: tuple[Flag, ...]
    asked: dict[str, tuple[int, ...]]
    opening: frozenset[str]
    closing: dict[str, int]

    @property
    def all_questions(self) -> tuple[Question, ...]:
        """Every open question, by number."""
        return self.questions + tuple(q for passage in self.passages for q in passage.questions)

    @property
    def numbers(self) -> list[int]:
        """The numbers of the open questions."""
        return [question.number for question in self.all_questions]


def all_queries(lesson: Lesson) -> tuple[Flag, ...]:
    """The lesson's queries, open or answered, in the order of their numbers, from 1."""
    return tuple(flag for flag in lesson.flags if flag.level == "query")


def lay_out(lesson: Lesson, flagged: bool = True) -> Sheet:
    """Put events and, where wanted, flags where they belong. Answered queries no longer show; ids that lead
    nowhere are passed over; events that no phrase holds stand in a last passage without a title."""
    bare = _passages(lesson)
    flags = lesson.flags if flagged else ()
    numbers = {flag.id: number for number, flag in enumerate(all_queries(lesson), start=1)}
    queries = _placed((f for f in flags if f.level == "query" and not f.decided), bare)
    remarks = _placed((f for f in flags if f.level == "note"), bare)
    numbered = [tuple(Question(numbers[f.id], f) for f in group) for group in queries]
    passages = tuple(
        Passage(p.title, p.start, p.events, p.demos, numbered[i], tuple(remarks[i]))
        for i, p in enumerate(bare, start=1)
    )
    strings = max((note.string for event in lesson.events for note in event.notes), default=0)
    return Sheet(
        labels=tuple(string_labels(lesson.facts.tuning, strings)),
        passages=passages,
        questions=numbered[0],
        remarks=tuple(remarks[0]),
        asked=_asked(lesson.events, [q for questions in numbered for q in questions]),
        opening=frozenset(repeat.first for repeat in lesson.repeats),
        closing={repeat.last: repeat.times for repeat in lesson.repeats},
    )


def _passages(lesson: Lesson) -> list[Passage]:
    """The phrases as passages that have no flags yet."""
    by_id = {event.id: event for event in lesson.events if event.notes}
    held = {i for phrase in lesson.phrases for i in phrase.events}
    passages = [
        Passage(title, p.start, tuple(by_id[i] for i in p.events if i in by_id), p.demos, (), ())
        for p, title in zip(lesson.phrases, titles(lesson), strict=True)
    ]
    loose = tuple(event for event in by_id.values() if event.id not in held)
    return [*passages, Passage("", loose[0].start, loose, (), (), ())] if loose else passages


def _placed(flags: Iterable[Flag], passages: Sequence[Passage]) -> list[list[Flag]]:
    """The flags of each passage by time, those before the first passage in front."""
    places: list[list[Flag]] = [[] for _ in range(len(passages) + 1)]
    for flag in sorted(flags, key=lambda flag: flag.start):
        places[_place(flag, passages)].append(flag)
    return places


def _place(flag: Flag, passages: Sequence[Passage]) -> int:
    """The passage (from 1) that holds an event of the flag, else the last one begun before it, else 0."""
    for number, passage in enumerate(passages, start=1):
        if any(_points(flag, event) for event in passage.events):
            return number
    begun = [number for number, passage in enumerate(passages, start=1) if passage.start <= flag.start]
    return begun[-1] if begun else 0


def _points(flag: Flag, event: Event) -> bool:
    return event.id in flag.events or flag.id in event.flags


def _asked(events: Iterable[Event], questions: Sequence[Question]) -> dict[str, tuple[int, ...]]:
    numbers = {e.id: tuple(sorted(q.number for q in questions if _points(q.flag, e))) for e in events}
    return {event: found for event, found in numbers.items() if found}
