"""The practice of a lesson as the page shows it: its hard spots, each with its notes and its ladder."""

from __future__ import annotations

from msgspec import Struct

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.drawing.figure import Figure
from notesgen.pack.layout.drawing.tab import tab_figures
from notesgen.pack.layout.page.moments import Moment, moment
from notesgen.pack.layout.practice import Spot, excerpt, ladder_text, practice
from notesgen.pack.layout.sounding.phrases import REST

ROUNDS = 3  # at each tempo, as the practice section says


class Drill(Struct, frozen=True):
    """One spot. `name` is that of the sound of its phrase, `steps` its ladder for the player: first tempo,
    rise, rounds, last tempo."""

    title: str
    name: str
    spot: Spot
    moment: Moment
    figures: tuple[Figure, ...]
    ladder: str
    steps: str


def drills(lesson: Lesson, width: float) -> tuple[Drill, ...]:
    """The spots, the hardest first, drawn without pencil marks in lines of at most `width` points."""
    return tuple(_drill(spot, lesson, width) for spot in practice(lesson))


def _drill(spot: Spot, lesson: Lesson, width: float) -> Drill:
    passage, sheet = excerpt(lesson, spot)
    ladder = spot.ladder
    return Drill(
        title=" ".join(passage.title.split()) or "Further notes",
        name=spot.phrase or REST,
        spot=spot,
        moment=moment(spot.start, lesson),
        figures=tab_figures(passage, sheet, width),
        ladder=ladder_text(ladder, lesson.facts.tempo),
        steps=f"{ladder.start} {ladder.step} {ROUNDS} {ladder.goal}",
    )
