"""Examples and `not`s of a grammar, each tried through every room."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import takewhile

from msgspec import Struct
from msgspec.structs import replace

from notesgen.captions.read import read_captions
from notesgen.errors import InputError
from notesgen.grammar.model import Example, Grammar, Idiom, Not
from notesgen.lesson.model import Event, Lesson
from notesgen.pipeline import Given, Rooms, rooms
from notesgen.rehearsal import notation, wanted
from notesgen.rehearsal.notation import NotationError, Written
from notesgen.speech.instructions import Instruction


class Result(Struct, frozen=True):
    """One example or `not`. `expected` and `got` are notes or instructions as examples write them.

    `problem` says in one line what went wrong; empty when all is right. `read_by` names the idioms that took
    the words. `known` is the reason why this example is known to fail.
    """

    idiom: str
    file: str
    heard: str
    before: str = ""
    expected: tuple[str, ...] = ()
    got: tuple[str, ...] = ()
    read_by: tuple[str, ...] = ()
    problem: str = ""
    known: str = ""
    is_not: bool = False

    @property
    def passed(self) -> bool:
        """Right; or wrong, where that is known. A known failure that comes out right must be noticed."""
        return bool(self.problem) == bool(self.known)


def hear(words: str, given: Given | None = None, language: str = "en") -> Rooms:
    """Words as one caption through every room; in standard tuning and with no key, unless given.

    Raises InputError when there are no words.
    """
    text = f"[0:00] {' '.join(words.split())}"
    return rooms(read_captions(text.encode(errors="replace"), "the words"), given, language)


def rehearse(grammar: Grammar, files: Collection[str] | None = None) -> Iterator[Result]:
    """Every example and `not`, or those of the named files only. Raises InputError where one is misspelt."""
    for idiom in grammar.idioms:
        if files is None or idiom.file in files:
            for example in idiom.examples:
                yield try_example(idiom, example, grammar.language)
            for case in idiom.nots:
                yield try_not(idiom, case, grammar.language)


def try_example(idiom: Idiom, example: Example, language: str = "en") -> Result:
    """One example: its notes where it has `notes`, its instructions where it has `gives`.

    What `before` alone gives is taken off the front; what its words become through `heard` counts.
    """
    after = hear(_joined(example), language=language)
    before = hear(example.before, language=language) if example.before else None
    result = Result(
        idiom.name,
        idiom.file,
        example.heard,
        example.before,
        read_by=tuple(instruction.idiom for instruction in after.instructions),
        known=example.known_failure,
        problem='the example has neither "notes" nor "gives"',
    )
    if example.notes is not None:
        result = _try_notes(result, example.notes, after.lesson, before.lesson.events if before else ())
    if example.gives is not None and (example.notes is None or not result.problem):
        result = _try_gives(result, example.gives, after.instructions, before.instructions if before else ())
    return result


def try_not(idiom: Idiom, case: Not, language: str = "en") -> Result:
    """One `not`: the idiom must leave the words alone."""
    read_by = tuple(instruction.idiom for instruction in hear(case.heard, language=language).instructions)
    problem = f"the idiom took these words, but should not: {case.why}" if idiom.name in read_by else ""
    return Result(idiom.name, idiom.file, case.heard, read_by=read_by, problem=problem, is_not=True)


def idle(grammar: Grammar, results: Sequence[Result]) -> list[str]:
    """The idioms that read the words of none of their own examples, though they have some."""
    tried = {result.idiom for result in results if not result.is_not}
    at_work = {r.idiom for r in results if not r.is_not and r.idiom in r.read_by}
    return [idiom.name for idiom in grammar.idioms if idiom.name in tried - at_work]


def _joined(example: Example) -> str:
    """The words before and the words heard; a sentence ends between them unless they say otherwise."""
    before = example.before.strip()
    stop = "" if not before or before[-1] in ".,;:!?" else "."
    return f"{before}{stop} {example.heard}"


def _try_notes(result: Result, notes: tuple[str, ...], lesson: Lesson, before: tuple[Event, ...]) -> Result:
    expected = tuple(_read(note, result) for note in notes)
    alone = [str(notation.written(event)) for event in before]
    events = lesson.events[_shared(alone, [str(notation.written(event)) for event in lesson.events]) :]
    got = tuple(notation.written(event) for event in events)
    return _with(result, expected, got, _notes_problem(expected, events, _asked_strings(lesson)))


def _read(note: str, result: Result) -> Written:
    try:
        return notation.parse(note)
    except NotationError as error:
        raise InputError(
            f'in the example "{result.heard}" of "{result.idiom}": {error}', result.file
        ) from None


def _notes_problem(expected: tuple[Written, ...], events: tuple[Event, ...], asked: frozenset[str]) -> str:
    if len(expected) != len(events) or not all(
        e.fits(event) for e, event in zip(expected, events, strict=True)
    ):
        return "other notes came out"
    unasked = [str(e) for e, event in zip(expected, events, strict=True) if e.asks and event.id not in asked]
    return f"the string is not said, and the draft did not ask: {', '.join(unasked)}" if unasked else ""


def _asked_strings(lesson: Lesson) -> frozenset[str]:
    """The events about whose string the draft asks."""
    flags = [flag for flag in lesson.flags if flag.kind == "string-unsaid"]
    by_id = {flag.id for flag in flags}
    named = {event for flag in flags for event in flag.events}
    return frozenset(named | {event.id for event in lesson.events if by_id.intersection(event.flags)})


def _try_gives(
    result: Result, gives: tuple[str, ...], after: tuple[Instruction, ...], before: tuple[Instruction, ...]
) -> Result:
    expected = tuple(wanted.parse(text) for text in gives)
    given = [i for i in after if i.kind != "aside"]
    alone = [wanted.told(i) for i in before if i.kind != "aside"]
    given = given[_shared(alone, [wanted.told(i) for i in given]) :]
    fits = len(expected) == len(given) and all(e.fits(i) for e, i in zip(expected, given, strict=True))
    got = tuple(wanted.told(instruction) for instruction in given)
    return _with(result, gives, got, "" if fits else "other instructions came out")


def _shared(alone: Sequence[str], together: Sequence[str]) -> int:
    """How many entries at the front are the same in both."""
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(alone, together, strict=False)))


def _with(result: Result, expected: Sequence[object], got: Sequence[object], problem: str) -> Result:
    return replace(result, expected=tuple(map(str, expected)), got=tuple(map(str, got)), problem=problem)
