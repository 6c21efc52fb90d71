"""The tab as plain text, as guitarists have long mailed it to each other."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence

from notesgen.lesson.model import Event, Flag, Lesson, Position
from notesgen.pack.layout import signs
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.facts import fact_lines
from notesgen.pack.layout.footnotes import NOTHING_FOUND, RIGHTS, choices, status_line
from notesgen.pack.layout.practice import EARS, HANDS, METHOD, Spot, excerpt, ladder_text, practice
from notesgen.pack.layout.sheet import Passage, Question, Sheet, lay_out
from notesgen.pack.layout.staff import systems
from notesgen.pack.layout.steps import steps
from notesgen.pack.layout.strings import string_name
from notesgen.pack.layout.style import PLAIN, Style

FILE = "tab.txt"


def render(lesson: Lesson, style: Style = PLAIN) -> str:
    """The lesson as text, lines of at most `style.width` characters where its words and groups allow."""
    sheet, width = lay_out(lesson, style.shows_flags), style.width
    blocks = [
        _head(lesson, sheet, style),
        *(_position(position, lesson.facts.tuning, width) for position in lesson.facts.positions),
        _notes(sheet.questions, sheet.remarks, width),
        *(_passage(passage, sheet, lesson, width) for passage in sheet.passages),
        *_practice(lesson, width),
        _legend(lesson.events, width),
        *(_closing(width) if lesson.events else [_advice(width)] if style.shows_flags else []),
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _head(lesson: Lesson, sheet: Sheet, style: Style) -> list[str]:
    width = style.width
    title = textwrap.wrap(" ".join(lesson.facts.title.split()) or "Guitar lesson", width)
    facts = fact_lines(lesson.facts, style.shows_flags)
    column = max(len(name) for name, _ in facts) + 2
    told = [_hanging(f"{name}:".ljust(column) + words, width, column) for name, words in facts]
    status = textwrap.wrap(status_line(lesson, len(sheet.all_questions), style, sheet.numbers), width)
    lines = [*title, "=" * max(map(len, title)), "", *(line for lines in told for line in lines)]
    return [*lines, "", *status] if status else lines


def _position(position: Position, tuning: Sequence[str], width: int) -> list[str]:
    """A scale box, a line a string, the thinnest first."""
    rows = sorted(position.frets.items(), key=lambda item: int(item[0]))
    names = [string_name(tuning, int(string)) for string, _ in rows]
    column = max(map(len, names), default=0) + 2
    return [
        *_hanging(f"Position: {position.label} ({clock(position.start)})", width, 2),
        *(
            f"  {name.ljust(column)}{' '.join(map(str, frets))}"
            for name, (_, frets) in zip(names, rows, strict=True)
        ),
    ]


def _passage(passage: Passage, sheet: Sheet, lesson: Lesson, width: int) -> list[str]:
    drawn = [line for system in systems(passage, sheet, width) for line in ("", *system.lines)]
    blocks = (
        _steps(passage, sheet, lesson, width),
        _notes(passage.questions, passage.remarks, width),
    )
    return [*_heading(passage, width), *drawn, *(line for block in blocks if block for line in ("", *block))]


def _steps(passage: Passage, sheet: Sheet, lesson: Lesson, width: int) -> list[str]:
    numbered = enumerate(steps(passage, sheet, lesson.facts.tuning), start=1)
    return [line for n, step in numbered for line in _hanging(f"{n:>3}. {step.words}.", width, 5)]


def _heading(passage: Passage, width: int) -> list[str]:
    title = " ".join(passage.title.split()) or "Further notes"
    lines = _hanging(f"{clock(passage.start)}  {title}", width, len(clock(passage.start)) + 2)
    lines.append("-" * max(map(len, lines)))
    if passage.demos:
        times = ", ".join(f"{clock(start)} to {clock(end)}" for start, end in passage.demos)
        lines += textwrap.wrap(f"Played at {times}.", width)
    return lines


def _practice(lesson: Lesson, width: int) -> list[list[str]]:
    """The hardest spots, each with its notes; nothing where none stands out."""
    spots = practice(lesson)
    if not spots:
        return []
    method = [line for told in METHOD for line in textwrap.wrap(told, width)]
    return [
        ["Practice", "--------", *method],
        *(_spot(number, spot, lesson, width) for number, spot in enumerate(spots, start=1)),
    ]


def _spot(number: int, spot: Spot, lesson: Lesson, width: int) -> list[str]:
    passage, sheet = excerpt(lesson, spot)
    title = " ".join(passage.title.split()) or "Further notes"
    return [
        *_hanging(f"Loop {number}: {title} ({clock(spot.start)})", width, 2),
        *textwrap.wrap(f"{spot.why} {spot.advice}", width, break_on_hyphens=False),
        *(line for system in systems(passage, sheet, width) for line in ("", *system.lines)),
        "",
        *_hanging(f"Ladder: {ladder_text(spot.ladder, lesson.facts.tempo)}.", width, 2),
    ]


def _closing(width: int) -> list[list[str]]:
    cautions = [line for told in (*HANDS, *EARS) for line in _hanging(f"  - {told}", width, 4)]
    return [["Your hands and ears", *cautions], textwrap.wrap(RIGHTS, width)]


def _notes(questions: Iterable[Question], remarks: Iterable[Flag], width: int) -> list[str]:
    """Footnotes, then remarks."""
    return [*(line for q in questions for line in _question(q, width)), *_remarks(remarks, width)]


def _question(question: Question, width: int) -> Iterator[str]:
    flag, mark = question.flag, f"[{question.number}] "
    yield from _hanging(f"{mark}{clock(flag.start)} (question) {flag.message}", width, len(mark))
    if flag.options:
        yield from _choices(choices(flag), width, len(mark))


def _choices(lettered: list[str], width: int, indent: int) -> Iterator[str]:
    """On one line where there is room, else each on its own."""
    line = " " * indent + "Choices: " + "  ".join(lettered)
    if len(line) <= width:
        yield line
        return
    yield " " * indent + "Choices:"
    for choice in lettered:
        yield from _hanging(" " * (indent + 2) + choice, width, indent + 5)


def _remarks(remarks: Iterable[Flag], width: int) -> Iterator[str]:
    for flag in remarks:
        yield from _hanging(f"  - {clock(flag.start)} {flag.message}", width, 4)


def _legend(events: Iterable[Event], width: int) -> list[str]:
    rows = [signs.LEGEND[key] for key in signs.used(events)]
    if not rows:
        return []
    column = max(len(example) for example, _ in rows) + 3
    lines = [_hanging(f"  {example.ljust(column)}{words}", width, column + 2) for example, words in rows]
    return ["Signs", *(line for wrapped in lines for line in wrapped)]


def _advice(width: int) -> list[str]:
    return [line for tip in NOTHING_FOUND for line in _hanging(f"  - {tip}", width, 4)]


def _hanging(text: str, width: int, indent: int) -> list[str]:
    """Wrapped to `width`, lines after the first indented by so many characters."""
    return textwrap.wrap(
        text, width, subsequent_indent=" " * indent, break_long_words=False, break_on_hyphens=False
    )
