"""The lesson notes in Markdown, for anywhere that takes it. What comes from the talk is escaped."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from notesgen.lesson.model import Event, Flag, Lesson, Position
from notesgen.pack.layout import signs
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.escape import escape
from notesgen.pack.layout.facts import fact_lines
from notesgen.pack.layout.footnotes import NOTHING_FOUND, RIGHTS, choices, status_line
from notesgen.pack.layout.practice import EARS, HANDS, METHOD, Spot, excerpt, ladder_text, practice
from notesgen.pack.layout.sheet import Passage, Question, Sheet, lay_out
from notesgen.pack.layout.staff import systems
from notesgen.pack.layout.steps import steps
from notesgen.pack.layout.strings import string_name
from notesgen.pack.layout.style import PLAIN, Style

FILE = "notes.md"


def render(lesson: Lesson, style: Style = PLAIN) -> str:
    """The lesson as Markdown. Only the tab is kept to `style.width`; text is for the reader to wrap."""
    sheet, width = lay_out(lesson, style.shows_flags), style.width
    taught = bool(lesson.events)
    blocks = [
        f"# {escape(lesson.facts.title) or 'Guitar lesson'}",
        escape(status_line(lesson, len(sheet.all_questions), style, sheet.numbers)),
        "" if taught or not style.shows_flags else _list(map(escape, NOTHING_FOUND)),
        "## What you need",
        _list(
            f"**{escape(n)}:** {escape(words)}" for n, words in fact_lines(lesson.facts, style.shows_flags)
        ),
        *(block for position in lesson.facts.positions for block in _position(position, lesson.facts.tuning)),
        _remarks(sheet.remarks),
        *(block for passage in sheet.passages for block in _passage(passage, sheet, lesson, width)),
        *_practice(lesson, width),
        *_section("Open questions", [_question(question) for question in sheet.all_questions]),
        *_section("Signs in the tab", _legend(lesson.events)),
        *_section("Your hands and ears", (*HANDS, *EARS) if taught else ()),
        *_section("Sharing", [RIGHTS] if taught else ()),
    ]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _position(position: Position, tuning: Sequence[str]) -> list[str]:
    """A scale box as a table, the thinnest string first."""
    rows = [
        f"| {string_name(tuning, int(string))} | {' '.join(map(str, frets))} |"
        for string, frets in sorted(position.frets.items(), key=lambda item: int(item[0]))
    ]
    title = f"### Position: {escape(position.label)} ({clock(position.start)})"
    return [title, "\n".join(["| String | Frets |", "| --- | --- |", *rows])]


def _passage(passage: Passage, sheet: Sheet, lesson: Lesson, width: int) -> list[str]:
    played = ", ".join(f"{clock(start)} to {clock(end)}" for start, end in passage.demos)
    return [
        f"## {clock(passage.start)} {escape(passage.title) or 'Further notes'}",
        f"Played at {played}." if played else "",
        _drawn(passage, sheet, width),
        "\n".join(_steps(passage, sheet, lesson.facts.tuning)),
        _remarks(passage.remarks),
    ]


def _drawn(passage: Passage, sheet: Sheet, width: int) -> str:
    drawn = ["\n".join(system.lines) for system in systems(passage, sheet, width)]
    return "```text\n" + "\n\n".join(drawn) + "\n```" if drawn else ""


def _practice(lesson: Lesson, width: int) -> list[str]:
    """The hardest spots, each with its notes; nothing where none stands out."""
    spots = practice(lesson)
    told = [block for n, spot in enumerate(spots, start=1) for block in _spot(n, spot, lesson, width)]
    return ["## Practice", _list(METHOD), *told] if spots else []


def _spot(number: int, spot: Spot, lesson: Lesson, width: int) -> list[str]:
    passage, sheet = excerpt(lesson, spot)
    title = escape(passage.title) or "Further notes"
    return [
        f"### Loop {number}: {title} ({clock(spot.start)})",
        f"{escape(spot.why)} {escape(spot.advice)}",
        _drawn(passage, sheet, width),
        f"Ladder: {escape(ladder_text(spot.ladder, lesson.facts.tempo))}.",
    ]


def _steps(passage: Passage, sheet: Sheet, tuning: Sequence[str]) -> list[str]:
    return [
        f"{number}. {escape(step.words)}." + "".join(f" **\\[{asked}\\]**" for asked in step.asked)
        for number, step in enumerate(steps(passage, sheet, tuning), start=1)
    ]


def _question(question: Question) -> str:
    flag = question.flag
    lettered = "; ".join(escape(choice) for choice in choices(flag))
    quote = f' Heard: "{escape(flag.quote)}".' if flag.quote else ""
    return f"**\\[{question.number}\\]** {clock(flag.start)} {escape(flag.message)}{quote}" + (
        f" Choices: {lettered}." if lettered else ""
    )


def _remarks(remarks: Iterable[Flag]) -> str:
    return _list(f"*{clock(flag.start)} {escape(flag.message)}*" for flag in remarks)


def _legend(events: Iterable[Event]) -> list[str]:
    rows = [signs.LEGEND[key] for key in signs.used(events)]
    return [f"`{example}` {words}" for example, words in rows]


def _section(title: str, items: Iterable[str]) -> list[str]:
    listed = _list(items)
    return [f"## {title}", listed] if listed else []


def _list(items: Iterable[str]) -> str:
    return "\n".join(f"- {item}" for item in items)
