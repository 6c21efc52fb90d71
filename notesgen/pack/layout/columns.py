"""The events of a passage as the columns of a tab."""

from __future__ import annotations

from msgspec import Struct

from notesgen.lesson.model import LEGATO, Event, Fret
from notesgen.pack.layout.sheet import Passage, Sheet
from notesgen.pack.layout.signs import sign
from notesgen.pack.layout.strokes import strokes, with_before


class Column(Struct, frozen=True):
    """One event. `cells` maps strings to what is written there.

    `joined`: it sounds on from the column before and stands against it. `opens`: a repeat begins here;
    `closes`: how often the repeat that ends here is played in all, 0 where none ends. `asked`: footnotes.
    """

    event: Event
    cells: dict[int, str]
    joined: bool
    opens: bool
    closes: int
    asked: tuple[int, ...]

    @property
    def width(self) -> int:
        """Characters, at least one."""
        return max(map(len, self.cells.values()))


class Placed(Struct, frozen=True):
    """A column in its place: `start` and `end` (past its last character) count from the first bar."""

    column: Column
    start: int
    end: int


def columns(passage: Passage, sheet: Sheet) -> list[Column]:
    """One column an event, in playing order."""
    made: list[Column] = []
    for event, before in with_before(passage.events):
        opens = event.id in sheet.opening
        joined = bool(made) and not opens and not made[-1].closes and _sounds_on(event, made[-1])
        made.append(
            Column(
                event=event,
                cells=_cells(event, before, made[-1].cells if joined else {}),
                joined=joined,
                opens=opens,
                closes=sheet.closing.get(event.id, 0),
                asked=sheet.asked.get(event.id, ()),
            )
        )
    return made


def groups(made: list[Column]) -> list[list[Column]]:
    """The columns in runs that are joined, such as 5h7p5."""
    runs: list[list[Column]] = []
    for column in made:
        if column.joined:
            runs[-1].append(column)
        else:
            runs.append([column])
    return runs


def _sounds_on(event: Event, before: Column) -> bool:
    return any(stroke.how in LEGATO and stroke.string in before.cells for stroke in strokes(event))


def _cells(event: Event, before: dict[int, Fret], against: dict[int, str]) -> dict[int, str]:
    """The text for each string; `before` holds the frets last played there.

    In a joined column, a note struck anew keeps its distance from the note beside it on its string
    (`against`), lest "5" and "7" read as 57.
    """
    cells = {}
    for stroke in strokes(event):
        apart = stroke.string in against and stroke.how not in LEGATO
        cells[stroke.string] = ("-" if apart else "") + sign(stroke, before.get(stroke.string))
    return cells
