"""The practice of a lesson as the page shows it: its hard spots, each with its notes and its ladder."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.drawing.figure import Figure
from notesgen.pack.layout.drawing.tab import tab_figures
from notesgen.pack.layout.page.moments import Moment, moment
from notesgen.pack.layout.practice import Spot, ladder_text, practice
from notesgen.pack.layout.sheet import Passage, Sheet, lay_out

REST = "rest"  # what the player calls the events that no phrase holds
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
    sheet = lay_out(lesson, flagged=False)
    return tuple(_drill(spot, lesson, sheet, width) for spot in practice(lesson))


def _drill(spot: Spot, lesson: Lesson, sheet: Sheet, width: float) -> Drill:
    passage = next(p for p in sheet.passages if any(event.id == spot.first for event in p.events))
    ladder = spot.ladder
    return Drill(
        title=" ".join(passage.title.split()) or "Further notes",
        name=spot.phrase or REST,
        spot=spot,
        moment=moment(spot.start, lesson),
        figures=tab_figures(_part(passage, spot), _without_repeats(sheet), width),
        ladder=ladder_text(ladder, lesson.facts.tempo),
        steps=f"{ladder.start} {ladder.step} {ROUNDS} {ladder.goal}",
    )


def _part(passage: Passage, spot: Spot) -> Passage:
    ids = [event.id for event in passage.events]
    return replace(passage, events=passage.events[ids.index(spot.first) : ids.index(spot.last) + 1])


def _without_repeats(sheet: Sheet) -> Sheet:
    """A loop is played again in any case; a repeat that it only touches would mislead."""
    return replace(sheet, opening=frozenset(), closing={})
