"""Each sign of the drawn tab by itself, for a page that explains them in the words of `signs.LEGEND`."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from notesgen.lesson.model import Event, Fret, How, Mark, Note
from notesgen.pack.layout.drawing.figure import Figure
from notesgen.pack.layout.drawing.tab import tab_figures
from notesgen.pack.layout.sheet import Passage, Sheet

ROOM = 200.0  # more than any sample needs
LINES = Sheet(("", "", ""), (), (), (), {}, frozenset(), {})
"""Three strings without names."""


def _event(
    fret: Fret,
    how: How = "pick",
    *,
    bend: float | None = None,
    to: int | None = None,
    mark: Mark | None = None,
) -> Event:
    """A note on the middle string."""
    marks = () if mark is None else (mark,)
    return Event("sample", 0.0, 0.0, "", (Note(2, fret),), how=how, bend=bend, to=to, marks=marks)


SAMPLES: Mapping[str, tuple[Event, ...]] = MappingProxyType(
    {
        "hammer-on": (_event(5), _event(7, "hammer-on")),
        "pull-off": (_event(7), _event(5, "pull-off")),
        "slide": (_event(5), _event(7, "slide"), _event(5, "slide")),
        "bend": (_event(7, "bend", bend=2.0),),
        "part bend": (_event(7, "bend", bend=0.5),),
        "unsaid bend": (_event(7, "bend"),),
        "pre-bend": (_event(7, "pre-bend", bend=2.0),),
        "release": (_event(7, "bend", bend=2.0), _event(7, "release")),
        "trill": (_event(7, "trill", to=9),),
        "tap": (_event(12, "tap"),),
        "harmonic": (_event(12, "harmonic"),),
        "dead": (_event("x"),),
        "slide-in": (_event(7, mark="slide-in"),),
        "slide-out": (_event(7, mark="slide-out"),),
        "vibrato": (_event(7, mark="vibrato"),),
        "accent": (_event(7, mark="accent"),),
        "staccato": (_event(7, mark="staccato"),),
        "palm-mute": tuple(_event(fret, mark="palm-mute") for fret in (5, 5, 7)),
        "let-ring": tuple(_event(fret, mark="let-ring") for fret in (5, 7, 8)),
        "rake": (_event("x", mark="rake"), _event("x", mark="rake"), _event(7)),
    }
)


def sample(key: str) -> Figure:
    """The drawing for a key of `signs.LEGEND`. Raises KeyError where there is none."""
    (figure,) = tab_figures(Passage("", 0.0, SAMPLES[key], (), (), ()), LINES, ROOM)
    return figure
