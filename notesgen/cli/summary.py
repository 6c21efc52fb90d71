"""What a draft found, for the terminal: facts, counts, and each query under the words that raised it."""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.captions.transcript import Transcript
from notesgen.cli.excerpt import caption_line, excerpt
from notesgen.cli.screen import COLUMNS, counted, wrapped
from notesgen.decisions.order import by_weight
from notesgen.lesson.model import Facts, Flag, Lesson
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.facts import LIKELY_KEY, capo_text, tuning_text
from notesgen.pack.layout.footnotes import NOTHING_FOUND, choices
from notesgen.pack.layout.sheet import lay_out

Line = str | tuple[str, str]
INDENT = 4


def summary(lesson: Lesson, transcript: Transcript | None, remarks: bool = False) -> Iterator[Line]:
    """All of it, line by line. Queries bear the numbers that they have in the tab."""
    yield (lesson.facts.title or lesson.source.captions, "bold")
    yield ""
    yield from facts(lesson.facts)
    yield ""
    yield counts(lesson, remarks)
    if not lesson.events:
        yield from _nothing_found()
    yield from questions(lesson, transcript)
    if remarks:
        for flag in lesson.flags:
            if flag.level == "note":
                yield ""
                yield from flag_lines(flag, transcript, "remark")


def questions(lesson: Lesson, transcript: Transcript | None) -> Iterator[Line]:
    """The open queries, those first on which most hangs."""
    order = {flag.id: place for place, flag in enumerate(by_weight(lesson))}
    for question in sorted(lay_out(lesson).all_questions, key=lambda question: order[question.flag.id]):
        yield ""
        yield from flag_lines(question.flag, transcript, f"[{question.number}]")


def facts(found: Facts) -> Iterator[str]:
    """A line for each fact: name, value, and whether it was said, given, inferred or assumed."""
    rows = [("instrument", found.instrument), ("tuning", tuning_text(found.tuning, found.instrument))]
    rows.append(("capo", capo_text(found.capo)))
    if found.key:
        rows.append(("key", str(found.key)))
    rows += [("key", f"probably {one.value}") for one in found.changes if one.fact == LIKELY_KEY]
    if found.tempo:
        rows.append(("tempo", f"{found.tempo:g} beats a minute"))
    for name, words in rows:
        yield f"  {name.capitalize():<11} {words}{_origin(found.origin.get(name))}"
    for position in found.positions:
        frets = [fret for on_string in position.frets.values() for fret in on_string]
        span = f", frets {min(frets)} to {max(frets)}" if frets else ""
        yield f"  {'Position':<11} {position.label}{span} (said at {clock(position.start)})"


def counts(lesson: Lesson, remarks: bool) -> str:
    """ "5 phrases, 84 notes, 3 queries, 4 remarks (--all shows them)."."""
    open_queries = sum(flag.level == "query" and not flag.decided for flag in lesson.flags)
    notes = sum(flag.level == "note" for flag in lesson.flags)
    hint = " (--all shows them)" if notes and not remarks else ""
    return (
        f"{counted(len(lesson.phrases), 'phrase')}, {counted(len(lesson.events), 'note')}, "
        f"{counted(open_queries, 'query', 'queries')}, {counted(notes, 'remark')}{hint}."
    )


def _nothing_found() -> Iterator[str]:
    yield ""
    yield "No note was found. What to try:"
    for tip in NOTHING_FOUND:
        yield from wrapped(f"- {tip}", 2, hang=2)


def flag_lines(flag: Flag, transcript: Transcript | None, mark: str) -> Iterator[Line]:
    """One flag: where, the words with carets, the doubt, the choices. Without captions, its words alone."""
    line = caption_line(transcript, flag.start) if transcript else None
    place = f"  ({transcript.source}:{line})" if transcript and line else ""
    yield (f"{mark} {clock(flag.start)}  {flag.kind}{place}", "bold")
    if transcript is None:
        yield from wrapped(f'"{flag.quote}"', INDENT)
    else:
        for words in excerpt(transcript, flag.start, flag.end, COLUMNS - INDENT):
            yield (" " * INDENT + words, "red" if words.strip("^ ") == "" else "dim")
    yield from wrapped(flag.message, INDENT)
    for choice in choices(flag):
        yield from wrapped(choice, INDENT, hang=3)


def _origin(origin: str | None) -> str:
    return f"  ({origin})" if origin else ""
