"""What the hand-out holds, section by section: words and drawings, which the template sets as they are."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from notesgen.lesson.model import Flag, Lesson, Position
from notesgen.pack.layout import signs
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.drawing.box import box_figure, tonics
from notesgen.pack.layout.drawing.figure import Figure
from notesgen.pack.layout.drawing.samples import sample
from notesgen.pack.layout.drawing.tab import tab_figures
from notesgen.pack.layout.facts import fact_lines
from notesgen.pack.layout.footnotes import NOTHING_FOUND, RIGHTS, UNSETTLED, choices, status_line
from notesgen.pack.layout.practice import EARS, HANDS, METHOD, Spot, excerpt, practice
from notesgen.pack.layout.sheet import Passage, Question, Sheet, lay_out
from notesgen.pack.layout.steps import steps
from notesgen.pack.layout.style import Style, is_unsettled

WIDE = 476.0  # points, the width of an A4 page between its margins
NO_BREAK = "\N{NO-BREAK SPACE}"  # between a choice's letter and its first word
BESIDE = 366.0  # the same, beside a margin for the teacher's notes


class Remark(Struct, frozen=True):
    """A note in the margin: a query with the number that the tab bears, a remark with 0."""

    number: int
    time: str
    message: str
    quote: str
    choices: tuple[str, ...]


class Direction(Struct, frozen=True):
    """A step in words, and the queries that touch it."""

    words: str
    asked: tuple[int, ...]


class Section(Struct, frozen=True):
    """A phrase, or a loop of the practice. `when` is where the recording has it; `text` stands above the tab,
    `ladder` has the tempos to tick off; the remarks stand in the margin."""

    title: str
    when: str
    lines: tuple[Figure, ...]
    text: str = ""
    ladder: tuple[str, ...] = ()
    steps: tuple[Direction, ...] = ()
    remarks: tuple[Remark, ...] = ()


class Captioned(Struct, frozen=True):
    """A drawing and the words beside it."""

    figure: Figure
    words: str


class Contents(Struct, frozen=True):
    """The hand-out. `stamp` stands on every page; `margin` keeps room for notes beside the tab, whose lines
    are at most `room` wide, in points; `timed` says that ladders are in beats a minute."""

    title: str
    stamp: str
    status: str
    margin: bool
    room: float
    timed: bool
    facts: tuple[tuple[str, str], ...]
    boxes: tuple[Captioned, ...]
    remarks: tuple[Remark, ...]
    advice: tuple[str, ...]
    sections: tuple[Section, ...]
    signs: tuple[Captioned, ...]
    cautions: tuple[str, ...]
    rights: str
    method: tuple[str, ...]
    loops: tuple[Section, ...]


def contents(lesson: Lesson, style: Style) -> Contents:
    """Everything that is printed, in its order."""
    sheet = lay_out(lesson, style.shows_flags)
    margin = bool(sheet.all_questions or sheet.remarks or any(p.remarks for p in sheet.passages))
    width = BESIDE if margin else WIDE
    draft, taught = is_unsettled(lesson) and not style.shows_flags, bool(lesson.events)
    loops = practice(lesson)
    return Contents(
        title=" ".join(lesson.facts.title.split()) or "Guitar lesson",
        stamp=UNSETTLED if draft else "",
        status=_status(lesson, len(sheet.all_questions), style),
        margin=margin,
        room=width,
        timed=bool(lesson.facts.tempo),
        facts=tuple(fact_lines(lesson.facts, style.shows_flags)),
        boxes=tuple(_box(position, lesson) for position in lesson.facts.positions),
        remarks=_remarks(sheet.questions, sheet.remarks),
        advice=() if taught or not style.shows_flags else NOTHING_FOUND,
        sections=tuple(_section(passage, sheet, lesson, width) for passage in sheet.passages),
        signs=tuple(Captioned(sample(key), signs.LEGEND[key][1]) for key in signs.used(lesson.events)),
        cautions=(*HANDS, *EARS) if taught else (),
        rights=RIGHTS if taught else "",
        method=METHOD if loops else (),
        loops=tuple(_loop(number, spot, lesson) for number, spot in enumerate(loops, start=1)),
    )


def _status(lesson: Lesson, questions: int, style: Style) -> str:
    """What the teacher reads below the title. The student's edition says it on every page, by the stamp."""
    if not style.shows_flags:
        return ""
    if not questions:
        return status_line(lesson, questions, style)
    still = "1 question is" if questions == 1 else f"{questions} questions are"
    return f"A draft of what is said in {lesson.source.captions}. {still} still open, in pencil by the tab."


def _section(passage: Passage, sheet: Sheet, lesson: Lesson, width: float) -> Section:
    played = ", ".join(f"{clock(start)} to {clock(end)}" for start, end in passage.demos)
    return Section(
        title=_title(passage),
        when=clock(passage.start) + (f", played at {played}" if played else ""),
        lines=tab_figures(passage, sheet, width),
        steps=tuple(Direction(f"{s.words}.", s.asked) for s in steps(passage, sheet, lesson.facts.tuning)),
        remarks=_remarks(passage.questions, passage.remarks),
    )


def _loop(number: int, spot: Spot, lesson: Lesson) -> Section:
    passage, sheet = excerpt(lesson, spot)
    return Section(
        title=f"Loop {number}: {_title(passage)}",
        when=clock(spot.start),
        text=f"{spot.why} {spot.advice}",
        lines=tab_figures(passage, sheet, WIDE),
        ladder=tuple(_rung(rung, lesson.facts.tempo) for rung in spot.ladder.rungs),
    )


def _rung(per_cent: int, tempo: float | None) -> str:
    return f"{tempo * per_cent / 100:.0f} ({per_cent} %)" if tempo else f"{per_cent} %"


def _title(passage: Passage) -> str:
    return " ".join(passage.title.split()) or "Further notes"


def _remarks(questions: Iterable[Question], remarks: Iterable[Flag]) -> tuple[Remark, ...]:
    return (
        *(_remark(question.number, question.flag) for question in questions),
        *(_remark(0, flag) for flag in remarks),
    )


def _remark(number: int, flag: Flag) -> Remark:
    lettered = (choice.replace(" ", NO_BREAK, 1) for choice in choices(flag))
    return Remark(number, clock(flag.start), flag.message, flag.quote if number else "", tuple(lettered))


def _box(position: Position, lesson: Lesson) -> Captioned:
    key, tuning = lesson.facts.key, lesson.facts.tuning
    ringed = f" Ringed: {key.tonic}, the tonic." if key and tonics(position, tuning, key) else ""
    label = f"{position.label[:1].upper()}{position.label[1:]}"
    return Captioned(box_figure(position, tuning, key), f"{label} ({clock(position.start)}).{ringed}")
