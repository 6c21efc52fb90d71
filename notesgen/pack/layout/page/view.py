"""A lesson as the page tells it, section by section: all words and drawings, no markup."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from notesgen.lesson.model import Flag, Lesson, Position
from notesgen.pack.layout import signs
from notesgen.pack.layout.drawing.box import box_figure, tonics
from notesgen.pack.layout.drawing.figure import Figure
from notesgen.pack.layout.drawing.samples import sample
from notesgen.pack.layout.drawing.tab import tab_figures
from notesgen.pack.layout.facts import fact_lines
from notesgen.pack.layout.footnotes import choices
from notesgen.pack.layout.page.drills import Drill, drills
from notesgen.pack.layout.page.moments import Moment, moment
from notesgen.pack.layout.sheet import Passage, Question, Sheet, lay_out
from notesgen.pack.layout.sounding.caveats import caveats
from notesgen.pack.layout.sounding.phrases import REST, sounds
from notesgen.pack.layout.steps import Step, steps
from notesgen.pack.layout.style import Style, is_unsettled

WIDE, NARROW = 430.0, 262.0
"""How wide a tab is, in points: beside a margin on A4 or on a desk, and on a phone."""


class Remark(Struct, frozen=True):
    """What stands in the margin: a query with its number, a remark with 0."""

    number: int
    moment: Moment
    message: str
    quote: str
    choices: tuple[str, ...]


class Diagram(Struct, frozen=True):
    """A position on the neck. `tonic` is the note that is ringed, "" where none is."""

    label: str
    moment: Moment
    figure: Figure
    tonic: str


class Section(Struct, frozen=True):
    """One phrase. `name` is that of its sound, `anchor` its place in the page."""

    name: str
    anchor: str
    title: str
    moment: Moment
    demos: tuple[tuple[Moment, Moment], ...]
    wide: tuple[Figure, ...]
    narrow: tuple[Figure, ...]
    steps: tuple[Step, ...]
    techniques: tuple[str, ...]
    remarks: tuple[Remark, ...]


class View(Struct, frozen=True):
    """The page. `open` counts the queries, `margin` says whether remarks stand beside the tab; `assumed` are
    sentences on what the players take for granted."""

    title: str
    captions: str
    facts: tuple[tuple[str, str], ...]
    assumed: tuple[str, ...]
    diagrams: tuple[Diagram, ...]
    remarks: tuple[Remark, ...]
    sections: tuple[Section, ...]
    drills: tuple[Drill, ...]
    legend: tuple[tuple[Figure, str], ...]
    margin: bool
    open: int
    draft: bool


def view(lesson: Lesson, style: Style) -> View:
    """Everything that the page shows, in its order."""
    sheet = lay_out(lesson, style.shows_flags)
    names = [*(phrase.id for phrase in lesson.phrases), REST]
    return View(
        title=" ".join(lesson.facts.title.split()) or "Guitar lesson",
        captions=lesson.source.captions,
        facts=tuple(fact_lines(lesson.facts)),
        assumed=caveats(lesson, sounds(lesson)),
        diagrams=tuple(_diagram(position, lesson) for position in lesson.facts.positions),
        remarks=_remarks(sheet.questions, sheet.remarks, lesson),
        sections=tuple(
            _section(passage, sheet, lesson, name, at)
            for at, (passage, name) in enumerate(zip(sheet.passages, names, strict=False), start=1)
        ),
        drills=drills(lesson, NARROW),
        legend=tuple((sample(key), signs.LEGEND[key][1]) for key in signs.used(lesson.events)),
        margin=style.shows_flags and bool(lesson.flags),
        open=sum(flag.level == "query" and flag.decided is None for flag in lesson.flags),
        draft=is_unsettled(lesson) and not style.shows_flags,
    )


def _section(passage: Passage, sheet: Sheet, lesson: Lesson, name: str, at: int) -> Section:
    return Section(
        name=name,
        anchor=f"phrase-{at}",
        title=" ".join(passage.title.split()) or "Further notes",
        moment=moment(passage.start, lesson),
        demos=tuple((moment(start, lesson), moment(end, lesson)) for start, end in passage.demos),
        wide=tab_figures(passage, sheet, WIDE),
        narrow=tab_figures(passage, sheet, NARROW),
        steps=tuple(steps(passage, sheet, lesson.facts.tuning)),
        techniques=tuple(signs.techniques(passage.events)),
        remarks=_remarks(passage.questions, passage.remarks, lesson),
    )


def _remarks(questions: Iterable[Question], remarks: Iterable[Flag], lesson: Lesson) -> tuple[Remark, ...]:
    asked = [_remark(question.flag, question.number, lesson) for question in questions]
    return (*asked, *(_remark(flag, 0, lesson) for flag in remarks))


def _remark(flag: Flag, number: int, lesson: Lesson) -> Remark:
    return Remark(number, moment(flag.start, lesson), flag.message, flag.quote, tuple(choices(flag)))


def _diagram(position: Position, lesson: Lesson) -> Diagram:
    key, tuning = lesson.facts.key, lesson.facts.tuning
    return Diagram(
        label=position.label,
        moment=moment(position.start, lesson),
        figure=box_figure(position, tuning, key),
        tonic=key.tonic if key and tonics(position, tuning, key) else "",
    )
